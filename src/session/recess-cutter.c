#include "session/recess-cutter.h"

#include "shopplan/corner.h"

bool recess_cutter(const Placed *placed, FeatureId recess, RecessCutter *cutter)
{
    const Feature *feature = placed_find(placed, recess);
    if (!feature || feature->kind != FEATURE_RECESS)
        return false;
    cutter->largest = length_from_mm(corner_cutter(&feature->shape));
    cutter->depth = length_from_mm(feature->top - feature->bottom);
    cutter->smallest = (cutter->depth + CUTTER_REACH - 1) / CUTTER_REACH;
    cutter->usual = cutter->largest >= cutter->smallest;
    return true;
}
