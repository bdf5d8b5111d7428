#include "trade/engagement.h"

#include <math.h>

static double rule_of_thumb(MaterialGroup group)
{
    switch (group) {
    case MATERIAL_ALUMINIUM:
        return 1.5;
    case MATERIAL_LAMINATE:
    case MATERIAL_POLYMER:
        return 2;
    default:
        return 1;
    }
}

bool engagement_needed(const Thread *thread, const Material *plate, double screw_strength,
                       Engagement *engagement, Error *error)
{
    ThreadLimits limits;
    if (!thread_limits(thread, &limits, error))
        return false;
    double per_mm = 1 / thread_pitch(thread); /* threads a mm: the standard's n */
    double screw_major = length_to_mm(limits.external_major_least);
    double screw_pitch = length_to_mm(limits.external_pitch_least);
    double plate_pitch = length_to_mm(limits.internal_pitch_greatest);
    double plate_minor = length_to_mm(limits.internal_minor_greatest);
    double half = 1 / (2 * per_mm), slope = 0.57735;
    engagement->external_area =
        M_PI * per_mm * plate_minor * (half + slope * (screw_pitch - plate_minor));
    engagement->internal_area =
        M_PI * per_mm * screw_major * (half + slope * (screw_major - plate_pitch));
    engagement->break_force = thread_tensile_area(thread) * screw_strength;
    engagement->by_rule = rule_of_thumb(plate->group) * length_to_mm(thread->major);
    engagement->screw_strips =
        engagement->break_force / (engagement->external_area * screw_strength / 2);
    engagement->plate_strips =
        engagement->break_force / (engagement->internal_area * plate->shear_strength);
    return true;
}

double engagement_failure(const Engagement *engagement, const Material *plate,
                          double screw_strength, double length, const char **what)
{
    double screw = engagement->external_area * length * screw_strength / 2;
    double hole = engagement->internal_area * length * plate->shear_strength;
    double least = fmin(engagement->break_force, fmin(screw, hole));
    *what = least == engagement->break_force ? "the screw breaks"
            : least == screw                 ? "the screw's thread strips"
                                             : "the plate's thread strips";
    return least;
}
