#include "drawing/hole-profile.h"

#include <glib.h>
#include <math.h>

/* A wider step that leaves less than this of a narrower one below it has cut it away for the eye.
 */
#define SAME 1e-6

static ProfileStep profile_step(const Step *step, double thickness)
{
    double radius = length_to_mm(step->diameter) / 2;
    double bottom = step->through ? thickness : length_to_mm(step->depth);
    double point = 0;
    if (step->point > 0)
        point = radius / tan(angle_to_degrees(step->point) / 2 * G_PI / 180);
    if (step->kind == STEP_SPOT || step->kind == STEP_COUNTERSINK) {
        /* Its depth is to the tip; the cylinder above the cone has what is left. */
        double depth = bottom > 0 ? bottom : point;
        return (ProfileStep){step->kind, radius, fmax(0, depth - point), depth};
    }
    bool open = step->through || bottom >= thickness;
    return (ProfileStep){step->kind, radius, bottom, open ? bottom : bottom + point};
}

/* Whether `a` is gone once `b` is cut. */
static bool is_cut_away(const ProfileStep *a, const ProfileStep *b)
{
    if (b->radius < a->radius - SAME || b->bottom < a->bottom - SAME)
        return false;
    return b->tip >= a->tip - SAME || b->bottom >= a->tip - SAME || a->kind == STEP_SPOT;
}

/* Whether a cone lies within a cylinder: narrower at the face, so that only its tip could show. */
static bool is_inside(const ProfileStep *cone, const ProfileStep *other)
{
    return cone->bottom <= SAME && other->bottom > 0 && other->radius >= cone->radius - SAME;
}

static bool is_seen(const ProfileStep *steps, size_t count, size_t i)
{
    for (size_t j = 0; j < count; j++) {
        if (j == i)
            continue;
        /* Of two alike the later one is kept. */
        bool alike = is_cut_away(&steps[j], &steps[i]) && is_cut_away(&steps[i], &steps[j]);
        if (is_cut_away(&steps[i], &steps[j]) && (!alike || j > i))
            return false;
        if (steps[i].kind == STEP_SPOT && is_inside(&steps[i], &steps[j]))
            return false;
    }
    return true;
}

HoleProfile hole_profile(const Hole *hole, double thickness)
{
    HoleProfile profile = {.count = 0};
    ProfileStep all[STEPS_MOST];
    size_t count = 0;
    for (uint32_t i = 0; i < hole->steps.count && count < STEPS_MOST; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        if (step->kind == STEP_TAP) {
            profile.thread_radius = length_to_mm(step->diameter) / 2;
            profile.thread_bottom = step->through ? thickness : length_to_mm(step->depth);
        } else {
            all[count++] = profile_step(step, thickness);
        }
    }
    for (size_t i = 0; i < count; i++) {
        if (!is_seen(all, count, i))
            continue;
        size_t at = profile.count++;
        for (; at > 0 && profile.steps[at - 1].radius < all[i].radius; at--)
            profile.steps[at] = profile.steps[at - 1];
        profile.steps[at] = all[i];
    }
    return profile;
}
