#include "placed/hole-tolerance.h"

#define ZONE_MM (20 * LENGTH_UM)
#define ZONE_INCH (LENGTH_INCH / 1000)

typedef struct LocatorSearch {
    const Placed *placed;
    bool found;
} LocatorSearch;

static bool visit_fitting(const Feature *feature, void *data)
{
    LocatorSearch *search = data;
    const Record *record = placed_record(search->placed, feature->id);
    if (record && record->kind == RECORD_FITTING && fitting_locates(&record->fitting))
        search->found = true;
    return !search->found;
}

bool hole_is_close(const Placed *placed, const Record *hole)
{
    if (hole->hole.position_tolerance > 0)
        return true;
    for (uint32_t i = 0; i < hole->hole.steps.count; i++) {
        int kind = LIST_AT(&hole->hole.steps, Step, i)->kind;
        if (kind == STEP_REAM || kind == STEP_BORE)
            return true;
    }
    LocatorSearch search = {placed, false};
    placed_each_on(placed, hole->id, visit_fitting, &search);
    return search.found;
}

Length hole_zone(const Hole *hole, PlateUnit unit)
{
    if (hole->position_tolerance > 0)
        return hole->position_tolerance;
    return unit == PLATE_INCH ? ZONE_INCH : ZONE_MM;
}
