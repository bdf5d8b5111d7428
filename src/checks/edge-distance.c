/* edge-distance: metal between a hole or recess and the edge of its face. */
#include "checks/pressed-pin.h"

enum { WALL_ALUMINIUM, WALL_STEEL, CENTRE_CAUTION, CENTRE_STOP, WALL_PRESSED };

static const RuleLimit limits[] = {
    [WALL_ALUMINIUM] = {"wall_aluminium", 2.0, VALUE_LENGTH,
                        N_("least wall to the edge in aluminium"),
                        N_("common practice, no source")},
    [WALL_STEEL] = {"wall_steel", 1.5, VALUE_LENGTH, N_("least wall to the edge in steel"),
                    N_("common practice, no source")},
    [CENTRE_CAUTION] = {"centre_caution", 1.5, VALUE_COUNT,
                        N_("diameters from a hole's centre to the edge, to pass without a caution"),
                        N_("common practice, no source")},
    [CENTRE_STOP] = {"centre_stop", 1.2, VALUE_COUNT,
                     N_("diameters from a hole's centre to the edge, to pass at all"),
                     N_("common practice; EN 1993-1-8 table 3.3 has the same for structural bolts "
                        "(from memory)")},
    [WALL_PRESSED] = {"wall_pressed", 1.0, VALUE_COUNT,
                      N_("diameters of metal from a pressed-in pin to the edge"),
                      N_("common practice, no source")},
};

enum { CASE_WALL, CASE_CENTRE_STOP, CASE_CENTRE_CAUTION, CASE_PRESSED };

static const RuleCase cases[] = {
    [CASE_WALL] = {LEVEL_STOP, VALUE_LENGTH,
                   N_("{a} leaves {value} of metal to the edge; at least {limit} is needed"),
                   N_("move it {less} further in")},
    [CASE_CENTRE_STOP] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("the centre of {a} is {value} from the edge; at least {limit} is needed"),
         N_("move it {less} further in")},
    [CASE_CENTRE_CAUTION] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("the centre of {a} is {value} from the edge; {limit} is good practice"),
         N_("move it {less} further in")},
    [CASE_PRESSED] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("{a} is pressed in with {value} of metal to the edge; it needs {limit}, or it "
            "bulges the edge"),
         N_("move its hole {less} further in, or make the pin a slip fit there")},
};

/* The remedy moves it far enough for every case of this rule, so that no second one follows. */
static void report(RuleContext *context, int which, const Feature *a, const Gap *gap, double value,
                   double limit)
{
    Finding *finding = rule_report(context, which, a, NULL, value, limit);
    rule_report_between(finding, gap->on_b, gap->on_a);
    double wanted = rule_limit_by_metal(context, WALL_ALUMINIUM, WALL_STEEL);
    if (a->kind == FEATURE_HOLE)
        wanted = fmax(wanted, (2 * context->limits[CENTRE_CAUTION] - 1) * a->shape.growth);
    Point way = point_minus(gap->on_b, gap->on_a);
    double length = point_length(way);
    if (length > 0)
        rule_offer_move(context, finding, a, point_times(way, (wanted - gap->distance) / length));
}

static void check_pressed(RuleContext *context, const Feature *a)
{
    Gap gap;
    PressedPin pin;
    if (!pressed_pin(context->placed, a, &pin))
        return;
    double wall = context->limits[WALL_PRESSED] * pin.diameter;
    shape_room(&placed_frame(context->placed, a->face)->extent, &pin.bore, &gap);
    if (falls_short(gap.distance, 0) || !falls_short(gap.distance, wall))
        return;
    Finding *finding = rule_report(context, CASE_PRESSED, a, NULL, gap.distance, wall);
    rule_report_between(finding, gap.on_b, gap.on_a);
}

/* A feature that reaches over the edge is outside-plate's business. */
static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Gap gap;
    if (a->kind == FEATURE_FITTING) {
        check_pressed(context, a);
        return;
    }
    const Frame *frame = placed_frame(context->placed, a->face);
    shape_room(&frame->extent, &a->shape, &gap);
    if (falls_short(gap.distance, 0))
        return;
    double wall = rule_limit_by_metal(context, WALL_ALUMINIUM, WALL_STEEL);
    double diameter = 2 * a->shape.growth, centre = gap.distance + a->shape.growth;
    bool round = a->kind == FEATURE_HOLE;
    double stop = context->limits[CENTRE_STOP] * diameter;
    double caution = context->limits[CENTRE_CAUTION] * diameter;
    if (falls_short(gap.distance, wall))
        report(context, CASE_WALL, a, &gap, gap.distance, wall);
    else if (round && falls_short(centre, stop))
        report(context, CASE_CENTRE_STOP, a, &gap, centre, stop);
    else if (round && falls_short(centre, caution))
        report(context, CASE_CENTRE_CAUTION, a, &gap, centre, caution);
}

const Rule rule_edge_distance = {
    .slug = "edge-distance",
    .title = N_("Too near the edge"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_CUT | FEATURE_FITTING,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
