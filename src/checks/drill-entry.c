/* drill-entry: a drill starts on metal that lies square to it, not on the slope of another face. */
#include "checks/rule.h"

enum { SLOPE };

static const RuleLimit limits[] = {
    [SLOPE] = {"slope", 3.0, VALUE_ANGLE,
               N_("slope that a drill still starts on without wandering"),
               N_("common practice, no source")},
};

static const RuleCase cases[] = {
    {LEVEL_CAUTION, VALUE_ANGLE,
     N_("the drill of {a} starts on a slope of {value}; {limit} is the most before it wanders"),
     N_("mill the place flat first, drill from the inclined face, or move it off the slope")},
};

/* A counterbore or bore that is made first leaves a flat place to drill from. */
static bool starts_with_a_drill(const Hole *hole)
{
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        int kind = LIST_AT(&hole->steps, Step, i)->kind;
        if (kind == STEP_COUNTERBORE || kind == STEP_BORE)
            return false;
        if (kind == STEP_DRILL || kind == STEP_SPOT)
            return true;
    }
    return false;
}

/* An inclined face's area as seen in the plan. */
static Shape in_plan(const Frame *frame)
{
    double half_x = frame->extent.half_length + frame->extent.growth;
    double half_y = frame->extent.half_width + frame->extent.growth;
    Space middle = frame_to_space(frame, (Point){frame->extent.pose.x, frame->extent.pose.y}, 0);
    Pose pose = {middle.x, middle.y, frame->along.x, frame->along.y, false};
    return shape_rectangle(pose, 2 * half_x, 2 * half_y * frame->normal.z, 0);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Placed *placed = context->placed;
    if (a->face != ID_TOP || !starts_with_a_drill(&placed_record(placed, a->id)->hole))
        return;
    for (uint32_t i = 0; i < placed_frame_count(placed); i++) {
        Gap gap;
        const Frame *frame = placed_frame_at(placed, i);
        if (frame->face == ID_TOP)
            continue;
        Shape area = in_plan(frame);
        double slope = acos(fmin(1, frame->normal.z)) * (180 / M_PI);
        shape_gap(&area, &a->shape, &gap);
        if (!falls_short(gap.distance, 0) || !falls_short(context->limits[SLOPE], slope))
            continue;
        rule_report(context, 0, a, NULL, slope, context->limits[SLOPE]);
        return;
    }
}

const Rule rule_drill_entry = {
    .slug = "drill-entry",
    .title = N_("Drill that starts on a slope"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_HOLE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
