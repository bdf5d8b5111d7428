/* bevel-runs-out: on an inclined face, a bevel that is higher than the blade, or that reaches a
 * hole of the part or the head of what holds it. */
#include "checks/bevel-figures.h"
#include "checks/edge-profile.h"
#include "checks/rule.h"

enum { HEAD };

static const RuleLimit limits[] = {
    [HEAD] = {"head", 0.5, VALUE_LENGTH,
              N_("room between a bevel and the screws and pins that hold the part"),
              N_("common practice, no source")},
};

enum { CASE_SPINE, CASE_HOLE, CASE_HEAD };

static const RuleCase cases[] = {
    [CASE_SPINE] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("on the thickest stock the bevel of the part of {a} is {limit} high, but the "
            "blade {value}: no flat is left"),
         N_("make the bevel steeper, the edge thicker or the stock thinner")},
    [CASE_HOLE] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("on the thickest stock the bevel of the part of {a} is {limit} high, and runs "
            "into one of its holes"),
         N_("make the bevel steeper, the edge thicker or the stock thinner, or move the "
            "hole")},
    [CASE_HEAD] = {LEVEL_STOP, VALUE_LENGTH,
                   N_("{b} stands {value} from the bevel of the part of {a}; {limit} is needed for "
                      "the cutter"),
                   N_("hold the part further from its bevel, or with a smaller head")},
};

typedef struct Bevelled {
    RuleContext *context;
    const Feature *station;
    Shape area; /* of the bevel, on the face */
} Bevelled;

/* The cutter's height is kept, so thicker stock makes the bevel higher. */
static double greatest_height(const Part *part)
{
    double angle = angle_to_degrees(part->bevel.angle);
    return blade_bevel_height(length_to_mm(part->thickness),
                              length_to_mm(part->bevel.edge_thickness), angle,
                              part->bevel.both_sides ? 2 : 1) +
           blade_height_for_thicker(length_to_mm(part->thickness_tolerance), angle);
}

/* The hole that the bevel reaches furthest into. */
static void check_holes(const Bevelled *bevelled, const Part *part, double height)
{
    Gap worst = {.distance = 0};
    bool meets = false;
    for (uint32_t i = 0; i < part->holes.count; i++) {
        Gap gap;
        const PartHole *hole = LIST_AT(&part->holes, PartHole, i);
        Point at = pose_point(bevelled->station->shape.pose,
                              (Point){length_to_mm(hole->at.x), length_to_mm(hole->at.y)});
        Shape round = shape_circle(at, length_to_mm(hole->diameter));
        shape_gap(&bevelled->area, &round, &gap);
        if (falls_short(gap.distance, 0) && (!meets || gap.distance < worst.distance)) {
            worst = gap;
            meets = true;
        }
    }
    if (meets) {
        Finding *finding = rule_report(bevelled->context, CASE_HOLE, bevelled->station, NULL,
                                       worst.distance, height);
        rule_report_between(finding, worst.on_a, worst.on_b);
    }
}

static bool check_head(const Feature *feature, void *data)
{
    Gap gap;
    const Bevelled *bevelled = data;
    RuleContext *context = bevelled->context;
    if (feature->kind != FEATURE_FITTING ||
        placed_record(context->placed, feature->id)->fitting.kind == FITTING_EDGE_CLAMP)
        return true;
    shape_gap(&bevelled->area, &feature->shape, &gap);
    if (falls_short(gap.distance, context->limits[HEAD])) {
        Finding *finding = rule_report(context, CASE_HEAD, bevelled->station, feature,
                                       fmax(0, gap.distance), context->limits[HEAD]);
        rule_report_between(finding, gap.on_a, gap.on_b);
    }
    return true;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    EdgeProfile profile;
    const Part *part = bevelled_part(context->placed, a, &profile);
    if (!part)
        return;
    double height = greatest_height(part);
    if (height <= 0)
        return;
    Bevelled bevelled = {context, a, bevelled_area(a, &profile, height)};
    if (falls_short(profile.top, height))
        rule_report(context, CASE_SPINE, a, NULL, profile.top, height);
    check_holes(&bevelled, part, height);
    placed_each_on(context->placed, a->id, check_head, &bevelled);
}

const Rule rule_bevel_runs_out = {
    .slug = "bevel-runs-out",
    .title = N_("Bevel runs out of the blade"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
