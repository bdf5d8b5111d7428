/* A plate that has no file, from a table of what was measured on it. */
#include "refit/measured.h"

#include "plate/label.h"

/* What a plate's file holds at least. */
#define DIAMETER_LEAST LENGTH_UM

static bool check_points(const MeasuredTable *table, Error *error)
{
    if (table->points->len == 0)
        return error_set(error, ERROR_FORMAT, NULL, "the table has no points");
    for (guint i = 0; i < table->points->len; i++) {
        const MeasuredPoint *point = &g_array_index(table->points, MeasuredPoint, i);
        char place[32];
        g_snprintf(place, sizeof place, "line %ld", point->line);
        if (point->diameter <= 0)
            return error_set(error, ERROR_FORMAT, place,
                             "a hole needs its diameter before a plate can be made of the table");
        if (point->diameter < DIAMETER_LEAST)
            return error_set(error, ERROR_LIMIT, place,
                             "a hole is at least 0.001 mm in diameter; look at the figure's unit");
    }
    return true;
}

typedef struct Bounds {
    Place low, high;
} Bounds;

static Bounds bounds_of(const MeasuredTable *table)
{
    Place first = g_array_index(table->points, MeasuredPoint, 0).at;
    Bounds bounds = {first, first};
    for (guint i = 1; i < table->points->len; i++) {
        Place at = g_array_index(table->points, MeasuredPoint, i).at;
        bounds.low = (Place){MIN(bounds.low.x, at.x), MIN(bounds.low.y, at.y)};
        bounds.high = (Place){MAX(bounds.high.x, at.x), MAX(bounds.high.y, at.y)};
    }
    return bounds;
}

static Record *hole_record(Plate *plate, const MeasuredPoint *point, Place shift)
{
    Record *record = record_new(plate_new_id(plate), RECORD_HOLE);
    record->hole.face = ID_TOP;
    record->hole.at = (Place){point->at.x + shift.x, point->at.y + shift.y};
    record->hole.label = g_strdup(point->label);
    record->hole.made = true;
    Step *step = list_append(&record->hole.steps, Step);
    *step = (Step){.kind = STEP_DRILL, .diameter = point->diameter, .through = true};
    return record;
}

static Record *settings_record(const Plate *plate, const MeasuredPlate *wanted, Place shift)
{
    Record *settings = record_copy(plate_find(plate, ID_SETTINGS), ID_SETTINGS);
    settings->settings.stock.metal = wanted->metal;
    settings->settings.datum.kind = DATUM_POINT;
    settings->settings.datum.at = shift;
    return settings;
}

Plate *measured_plate_new(const MeasuredTable *table, const MeasuredPlate *wanted, Error *error)
{
    if (!check_points(table, error))
        return NULL;
    Bounds bounds = bounds_of(table);
    Place shift = {wanted->margin - bounds.low.x, wanted->margin - bounds.low.y};
    Length length =
        wanted->length > 0 ? wanted->length : bounds.high.x - bounds.low.x + 2 * wanted->margin;
    Length width =
        wanted->width > 0 ? wanted->width : bounds.high.y - bounds.low.y + 2 * wanted->margin;
    if (MAX(length, bounds.high.x + shift.x) > LENGTH_GREATEST ||
        MAX(width, bounds.high.y + shift.y) > LENGTH_GREATEST || wanted->thickness <= 0) {
        error_set(error, ERROR_LIMIT, NULL,
                  "a plate is at most 10 m long and wide, and has a thickness");
        return NULL;
    }
    Plate *plate = plate_new(length, width, wanted->thickness, wanted->unit);
    Edit edit = EDIT_EMPTY;
    edit_add(&edit, record_ref(plate_find(plate, ID_SETTINGS)),
             settings_record(plate, wanted, shift));
    for (guint i = 0; i < table->points->len; i++) {
        const MeasuredPoint *point = &g_array_index(table->points, MeasuredPoint, i);
        edit_add(&edit, NULL, hole_record(plate, point, shift));
    }
    bool done = plate_apply(plate, &edit, NULL, NULL, error);
    edit_clear(&edit);
    if (!done) {
        plate_free(plate);
        return NULL;
    }
    label_all(plate);
    return plate;
}
