/* drill-ratio: a drill that goes many times its diameter deep wanders and breaks. */
#include "checks/hole-steps.h"
#include "checks/rule.h"

enum { RATIO };

static const RuleLimit limits[] = {
    [RATIO] = {"ratio", 10, VALUE_COUNT, N_("diameters that a drill may go deep"),
               N_("common practice: as deep as a jobber drill's flutes are long, no source")},
};

static const RuleCase cases[] = {
    {LEVEL_CAUTION, VALUE_COUNT,
     N_("a drill of {a} goes {value} times its diameter deep; {limit} is the most for a usual one"),
     N_("drill less deep, drill larger, or counterbore first")},
};

/* How deep below the next wider step that is at least half as wide again: a drill for a screw's
 * body starts at the floor of its counterbore. */
static double depth_alone(const Hole *hole, const Step *drill, const Frame *frame, Point at)
{
    double start = 0;
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        if (step->kind != STEP_SPOT && step->kind != STEP_COUNTERSINK &&
            step->diameter >= drill->diameter + drill->diameter / 2)
            start = fmax(start, step_depth(step, frame, at));
    }
    return step_depth(drill, frame, at) - start;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Hole *hole = &placed_record(context->placed, a->id)->hole;
    const Frame *frame = placed_frame(context->placed, a->face);
    double worst = 0, limit = context->limits[RATIO];
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        if (step->kind == STEP_DRILL)
            worst = fmax(worst, depth_alone(hole, step, frame, feature_at(a)) /
                                    length_to_mm(step->diameter));
    }
    if (falls_short(limit, worst))
        rule_report(context, 0, a, NULL, worst, limit);
}

const Rule rule_drill_ratio = {
    .slug = "drill-ratio",
    .title = N_("Deep hole of a thin drill"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_HOLE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
