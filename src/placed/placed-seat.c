#include "placed/placed-seat.h"

typedef struct Seat {
    const Placed *placed;
    double depth;
} Seat;

static bool deepen(const Feature *feature, void *data)
{
    Seat *seat = data;
    if (feature->kind != FEATURE_RECESS || feature->through)
        return true;
    int kind = placed_record(seat->placed, feature->id)->recess.kind;
    if (kind == RECESS_NEST || kind == RECESS_BLANK_NEST)
        seat->depth = fmax(seat->depth, -feature->bottom);
    return true;
}

double placed_seat(const Placed *placed, FeatureId station)
{
    Seat seat = {placed, 0};
    placed_each_on(placed, station, deepen, &seat);
    return seat.depth;
}

const Record *placed_part(const Placed *placed, FeatureId station)
{
    const Record *record = placed_record(placed, station);
    if (!record || record->kind != RECORD_STATION)
        return NULL;
    const Record *part = placed_record(placed, record->station.part);
    return part && part->kind == RECORD_PART ? part : NULL;
}

static void lower(Feature *feature, double by)
{
    feature->top -= by;
    feature->bottom -= by;
    feature->tip -= by;
    for (int i = 0; i < feature->slice_count; i++) {
        feature->slices[i].top -= by;
        feature->slices[i].bottom -= by;
        feature->slices[i].tip -= by;
    }
}

Feature placed_seated(const Placed *placed, const Feature *feature)
{
    Feature seated = *feature;
    FeatureId station = feature->kind == FEATURE_PART ? feature->id : ID_NONE;
    if (feature->kind == FEATURE_FITTING) {
        const Fitting *fitting = &placed_record(placed, feature->id)->fitting;
        station = fitting->kind == FITTING_EDGE_CLAMP ? ID_NONE : fitting->station;
    }
    if (station)
        lower(&seated, placed_seat(placed, station));
    return seated;
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
            blank.top = blank.slices[0].top = thickness;
        blank.slices[0].growth = blank.shape.growth;
    }
    lower(&blank, placed_seat(placed, station->id));
    return blank;
}
