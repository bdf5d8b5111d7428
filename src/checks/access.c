/* access: a driver reaches every screw's head when it goes on and when it comes off. */
#include "checks/passes.h"

enum { DRIVER, LENGTH };

static const RuleLimit limits[] = {
    [DRIVER] = {"driver", 8, VALUE_LENGTH, N_("diameter of a driver above a screw's head"),
                N_("common practice, no source")},
    [LENGTH] = {"length", 60, VALUE_LENGTH, N_("length of a driver above a screw's head"),
                N_("common practice, no source")},
};

static const RuleCase cases[] = {
    {LEVEL_STOP, VALUE_LENGTH,
     N_("at {operation} {a} goes on or comes off, and {b} stands {over} in its driver's way"),
     N_("let the other come off first, or move one of them")},
};

static Reach reach(const Placed *placed, const double *values)
{
    double away = hypot(values[DRIVER], values[LENGTH]) +
                  2 * length_to_mm(placed_settings(placed)->stock.thickness);
    return (Reach){values[DRIVER] / 2, away};
}

static bool is_driven(const Placed *placed, const Feature *feature)
{
    if (feature->kind != FEATURE_FITTING)
        return false;
    const Fitting *fitting = &placed_record(placed, feature->id)->fitting;
    return fitting_holds_down(fitting) && fitting->head_diameter > 0;
}

/* The gap of the driver on a's head to b; false where it is not in the way. */
static bool blocks(const RuleContext *context, const Feature *a, const Feature *b, SweepGap *gap)
{
    const Placed *placed = context->placed;
    Sweep driver = {.face = a->face,
                    .placement = frame_placement(placed_frame(placed, a->face)),
                    .way = SWEEP_OVER,
                    .path = shape_circle(feature_at(a), 0),
                    .radius = context->limits[DRIVER] / 2,
                    .bottom = a->top,
                    .tip = a->top,
                    .top = a->top + context->limits[LENGTH]};
    return is_driven(placed, a) && sweep_gap_within(placed, &driver, b, 0, gap) &&
           falls_short(gap->distance, 0);
}

/* What goes on or comes off together can do so in the better order; what stays, or bars the way of
 * the one that bars its own, can't. */
static bool is_in_the_way(const RuleContext *context, const Feature *a, const Feature *b,
                          bool stays, bool same_way)
{
    SweepGap back;
    return stays || (same_way && blocks(context, b, a, &back));
}

static void check_way(RuleContext *context, const Feature *a, const Feature *b)
{
    uint32_t count;
    SweepGap gap;
    const FeatureId *running = placed_running(context->placed, &count);
    bool a_before = false, b_before = false;
    if (count == 0 || !blocks(context, a, b, &gap))
        return;
    for (uint32_t i = 0; i < count; i++) {
        const Record *operation = placed_record(context->placed, running[i]);
        if (operation->operation.fitted.count == 0)
            continue;
        bool a_now = stands_at(context->placed, operation, a);
        bool b_now = stands_at(context->placed, operation, b);
        bool stays = b_before && b_now;
        bool same_way = a_before != a_now && b_before == a_before && b_now == a_now;
        if (b->kind == FEATURE_KEEP_CLEAR)
            stays = true;
        if (a_before != a_now && is_in_the_way(context, a, b, stays, same_way)) {
            Finding *finding = operation_report(context, 0, operation, a, b, gap.distance, 0);
            rule_report_between(finding, gap.on_a, gap.on_b);
        }
        a_before = a_now;
        b_before = b_now;
    }
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    check_way(context, a, b);
    if (b->kind == FEATURE_FITTING)
        check_way(context, b, a);
}

const Rule rule_access = {
    .slug = "access",
    .title = N_("No way for a driver"),
    .scope = SCOPE_PAIR,
    .kinds = FEATURE_FITTING,
    .other_kinds = FEATURE_FITTING | FEATURE_KEEP_CLEAR,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .reach_anywhere = reach,
    .check = check,
};
