#include "checks/locators.h"

#include "checks/hardware.h"

#include <stdlib.h>

void locator_clearance(const PartHole *hole, const Fitting *fitting, double *least,
                       double *greatest)
{
    Length smallest_hole = hole->diameter + hole->lower,
           largest_hole = hole->diameter + hole->upper;
    double largest_pin, smallest_pin;
    hardware_pin_limits(fitting, &largest_pin, &smallest_pin);
    *least = length_to_mm(smallest_hole) - largest_pin;
    *greatest = length_to_mm(largest_hole) - smallest_pin;
}

const Part *station_part(const Placed *placed, const Feature *station)
{
    const Record *record = placed_record(placed, station->id);
    const Record *part = record ? placed_record(placed, record->station.part) : NULL;
    return part && part->kind == RECORD_PART ? &part->part : NULL;
}

typedef struct Gathering {
    const Placed *placed;
    const Part *part;
    Locator *locators;
    int count;
} Gathering;

static bool gather(const Feature *feature, void *data)
{
    Gathering *gathering = data;
    if (feature->kind != FEATURE_FITTING || gathering->count == LOCATORS_MOST)
        return true;
    const Fitting *fitting = &placed_record(gathering->placed, feature->id)->fitting;
    if (!fitting_locates(fitting))
        return true;
    Locator *locator = &gathering->locators[gathering->count++];
    *locator = (Locator){.feature = feature, .fitting = fitting, .at = feature_at(feature)};
    const Part *part = gathering->part;
    if (part && fitting->part_hole > 0 && fitting->part_hole <= (int32_t)part->holes.count) {
        locator->part_hole = LIST_AT(&part->holes, PartHole, fitting->part_hole - 1);
        locator_clearance(locator->part_hole, fitting, &locator->clearance_least,
                          &locator->clearance_greatest);
    }
    return true;
}

static int compare_locators(const void *a, const void *b)
{
    FeatureId one = ((const Locator *)a)->feature->id, other = ((const Locator *)b)->feature->id;
    return (one > other) - (one < other);
}

int station_locators(const Placed *placed, const Feature *station, Locator locators[LOCATORS_MOST])
{
    Gathering gathering = {placed, station_part(placed, station), locators, 0};
    placed_each_on(placed, station->id, gather, &gathering);
    qsort(locators, (size_t)gathering.count, sizeof(Locator), compare_locators);
    return gathering.count;
}
