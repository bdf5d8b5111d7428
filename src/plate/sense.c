#include "plate/sense.h"

static bool no_sense(const Record *record, Error *error, const char *why)
{
    char place[48];
    g_snprintf(place, sizeof place, "%s %u", record_kind_key(record->kind), record->id);
    return error_set(error, ERROR_CONFLICT, place, "%s", why);
}

static bool part_sense(const Record *record, Error *error)
{
    const Part *part = &record->part;
    Outline *outline = part_outline(part, error);
    if (!outline) {
        char place[48];
        g_snprintf(place, sizeof place, "part %u, rings", record->id);
        if (error)
            error_within(error, place);
        return false;
    }
    outline_unref(outline);
    for (uint32_t i = 0; i < part->holes.count; i++)
        if (LIST_AT(&part->holes, PartHole, i)->diameter <= 0)
            return no_sense(record, error, "a hole needs a diameter");
    if (part->bevel.angle < 0 || part->bevel.angle >= 90 * ANGLE_DEGREE)
        return no_sense(record, error, "a bevel's angle lies between 0 and 90 degrees");
    return true;
}

static bool hole_sense(const Record *record, Error *error)
{
    const List *steps = &record->hole.steps;
    if (steps->count == 0 || steps->count > STEPS_MOST)
        return no_sense(record, error, "a hole has from 1 to 8 steps");
    for (uint32_t i = 0; i < steps->count; i++) {
        const Step *step = LIST_AT(steps, Step, i);
        if (!step->through && step->depth <= 0)
            return no_sense(record, error, "each step goes through or has a depth");
        if (step->point < 0 || step->point >= 180 * ANGLE_DEGREE)
            return no_sense(record, error, "a point's angle lies between 0 and 180 degrees");
        if (step->diameter + step->lower <= 0)
            return no_sense(record, error, "the lower limit leaves no hole");
    }
    return true;
}

static bool recess_sense(const Plate *plate, const Record *record, Error *error)
{
    const Recess *recess = &record->recess;
    if (!recess->through && recess->depth <= 0)
        return no_sense(record, error, "a recess goes through or has a depth");
    if (recess->kind == RECESS_NEST || recess->kind == RECESS_BLANK_NEST) {
        const Record *station = plate_find(plate, recess->station);
        if (!station)
            return no_sense(record, error, "a nest needs the station whose part lies in it");
        const Record *part = plate_find_kind(plate, station->station.part, RECORD_PART);
        if (recess->kind == RECESS_BLANK_NEST && part &&
            (part->part.blank.length <= 0 || part->part.blank.width <= 0))
            return no_sense(record, error, "the station's part has no blank to make a nest for");
        return true;
    }
    if (recess->length <= 0 || recess->width <= 0)
        return no_sense(record, error, "a slot needs a length and a width");
    if (recess->kind == RECESS_OBROUND && recess->length < recess->width)
        return no_sense(record, error, "a slot with round ends is at least as long as it is wide");
    if (2 * recess->corner_radius > MIN(recess->length, recess->width))
        return no_sense(record, error, "the corner radius is more than half the slot");
    return true;
}

static bool fitting_sense(const Plate *plate, const Record *record, Error *error)
{
    const Fitting *fitting = &record->fitting;
    if (fitting->kind == FITTING_EDGE_CLAMP) {
        if (fitting->travel_greatest < fitting->travel_least)
            return no_sense(record, error, "the greatest travel is less than the least");
        return true;
    }
    if (!fitting->hole)
        return no_sense(record, error, "a locator or hold-down needs the hole it stands in");
    if (!fitting->part_hole)
        return true;
    const Record *station = plate_find(plate, fitting->station);
    const Record *part =
        station ? plate_find_kind(plate, station->station.part, RECORD_PART) : NULL;
    if (!part || fitting->part_hole > (int32_t)part->part.holes.count)
        return no_sense(record, error, "the part has no hole of that number");
    return true;
}

static bool face_sense(const Record *record, Error *error)
{
    const Face *face = &record->face;
    if (face->kind == FACE_TOP)
        return record->id == ID_TOP ? true : no_sense(record, error, "a plate has one top");
    if (face->angle <= 0 || face->angle >= 90 * ANGLE_DEGREE)
        return no_sense(record, error, "an inclined face lies between 0 and 90 degrees");
    if (face->extent <= 0)
        return no_sense(record, error, "an inclined face needs an extent down its slope");
    if (face->from.x == face->to.x && face->from.y == face->to.y)
        return no_sense(record, error, "a break line needs two ends");
    return true;
}

static bool keep_clear_sense(const Record *record, Error *error)
{
    const KeepClear *area = &record->keep_clear;
    if (area->length <= 0 || area->width <= 0)
        return no_sense(record, error, "a keep-clear needs a length and a width");
    if (2 * area->corner_radius > MIN(area->length, area->width))
        return no_sense(record, error, "the corner radius is more than half the keep-clear");
    return true;
}

static bool settings_sense(const Record *record, Error *error)
{
    const Stock *stock = &record->settings.stock;
    if (stock->length <= 0 || stock->width <= 0 || stock->thickness <= 0)
        return no_sense(record, error, "the stock needs a length, a width and a thickness");
    if (record->settings.datum.kind == DATUM_HOLE && !record->settings.datum.hole)
        return no_sense(record, error, "the datum is a hole, but none is named");
    return true;
}

static bool operation_sense(const Record *record, Error *error)
{
    const List *passes = &record->operation.passes;
    for (uint32_t i = 0; i < passes->count; i++) {
        const Pass *pass = LIST_AT(passes, Pass, i);
        if (pass->point < 0 || pass->point >= 180 * ANGLE_DEGREE)
            return no_sense(record, error, "a drill's point lies between 0 and 180 degrees");
        if (2 * pass->corner_radius > pass->cutter_diameter)
            return no_sense(record, error, "a corner radius is at most half its cutter's diameter");
    }
    return true;
}

bool record_sense(const Plate *plate, const Record *record, Error *error)
{
    switch (record->kind) {
    case RECORD_SETTINGS:
        return settings_sense(record, error);
    case RECORD_FACE:
        return face_sense(record, error);
    case RECORD_PART:
        return part_sense(record, error);
    case RECORD_HOLE:
        return hole_sense(record, error);
    case RECORD_RECESS:
        return recess_sense(plate, record, error);
    case RECORD_FITTING:
        return fitting_sense(plate, record, error);
    case RECORD_KEEP_CLEAR:
        return keep_clear_sense(record, error);
    case RECORD_BASE:
    case RECORD_STATION:
        return true;
    case RECORD_OPERATION:
        return operation_sense(record, error);
    }
    return false;
}
