#include "checks/hole-steps.h"

double step_depth(const Step *step, const Frame *frame, Point at)
{
    return step->through ? frame_depth_at(frame, at) : length_to_mm(step->depth);
}

double step_width_at(const Step *step, const Frame *frame, Point at, double depth)
{
    double diameter = length_to_mm(step->diameter), end = step_depth(step, frame, at);
    bool cone = (step->kind == STEP_SPOT || step->kind == STEP_COUNTERSINK) && step->point > 0;
    if (depth >= end)
        return 0;
    if (!cone)
        return diameter;
    double half = angle_to_degrees(step->point) / 2 * (M_PI / 180);
    return fmin(diameter, 2 * (end - depth) * tan(half));
}

static bool makes_room(const Step *step)
{
    return step->kind == STEP_DRILL || step->kind == STEP_BORE || step->kind == STEP_REAM;
}

const Step *step_before(const Hole *hole, const Step *finish)
{
    const Step *best = NULL;
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        if (step != finish && makes_room(step) && step->diameter < finish->diameter &&
            (!best || step->diameter > best->diameter))
            best = step;
    }
    return best;
}

const Step *hole_tap(const Hole *hole)
{
    const Step *best = NULL;
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        bool deeper = !best || (!best->through && (step->through || step->depth > best->depth));
        if (step->kind == STEP_TAP && deeper)
            best = step;
    }
    return best;
}
