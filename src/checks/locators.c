#include "checks/locators.h"

#include "checks/hardware.h"

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

/* Room for the locator among those of lower numbers; the lowest stay when there are too many, so
 * that it is the same whatever was edited. NULL: there is none for it. */
static Locator *make_room(Gathering *gathering, FeatureId id)
{
    int at = gathering->count;
    while (at > 0 && gathering->locators[at - 1].feature->id > id)
        at--;
    if (at == LOCATORS_MOST)
        return NULL;
    if (gathering->count < LOCATORS_MOST)
        gathering->count++;
    for (int i = gathering->count - 1; i > at; i--)
        gathering->locators[i] = gathering->locators[i - 1];
    return &gathering->locators[at];
}

static bool gather(const Feature *feature, void *data)
{
    Gathering *gathering = data;
    if (feature->kind != FEATURE_FITTING)
        return true;
    const Fitting *fitting = &placed_record(gathering->placed, feature->id)->fitting;
    if (!fitting_locates(fitting))
        return true;
    Locator *locator = make_room(gathering, feature->id);
    if (!locator)
        return true;
    *locator = (Locator){.feature = feature, .fitting = fitting, .at = feature_at(feature)};
    const Part *part = gathering->part;
    if (part && fitting->part_hole > 0 && fitting->part_hole <= (int32_t)part->holes.count) {
        locator->part_hole = LIST_AT(&part->holes, PartHole, fitting->part_hole - 1);
        locator_clearance(locator->part_hole, fitting, &locator->clearance_least,
                          &locator->clearance_greatest);
    }
    return true;
}

int station_locators(const Placed *placed, const Feature *station, Locator locators[LOCATORS_MOST])
{
    Gathering gathering = {placed, station_part(placed, station), locators, 0};
    placed_each_on(placed, station->id, gather, &gathering);
    return gathering.count;
}
