#include "placed/placed-seat.h"

#include "placed/placed-private.h"

static void deepen(const Record *record, FeatureId station, double *depth)
{
    if (!record || record->kind != RECORD_RECESS || record->recess.station != station)
        return;
    const Recess *recess = &record->recess;
    if ((recess->kind == RECESS_NEST || recess->kind == RECESS_BLANK_NEST) && !recess->through)
        *depth = fmax(*depth, length_to_mm(recess->depth));
}

/* By records, since the features that stand on the seat are worked out from it. */
double placed_seat(const Placed *placed, FeatureId station)
{
    double depth = 0;
    const Placed *bottom = placed;
    for (; bottom->under; bottom = bottom->under)
        for (guint i = 0; i < bottom->entries->len; i++) {
            FeatureId id = g_array_index(bottom->entries, Entry, i).id;
            deepen(placed_record(placed, id), station, &depth);
        }
    uint32_t count;
    const FeatureId *on = dependents_of(bottom->dependents, station, &count);
    for (uint32_t i = 0; i < count; i++)
        deepen(placed_record(placed, on[i]), station, &depth);
    return depth;
}

const Record *placed_part(const Placed *placed, FeatureId station)
{
    const Record *record = placed_record(placed, station);
    if (!record || record->kind != RECORD_STATION)
        return NULL;
    const Record *part = placed_record(placed, record->station.part);
    return part && part->kind == RECORD_PART ? part : NULL;
}

Feature placed_seated_blank(const Placed *placed, const Feature *station)
{
    const Record *part = placed_part(placed, station->id);
    Feature blank = *station;
    if (station->has_blank && part) {
        double thickness = length_to_mm(part->part.blank.thickness);
        blank.shape = station->blank;
        blank.box = shape_box(&blank.shape);
        if (thickness > 0)
            blank.top = blank.slices[0].top = blank.bottom + thickness;
        blank.slices[0].growth = blank.shape.growth;
    }
    return blank;
}
