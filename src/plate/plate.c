#include "plate/plate.h"

#include "plate/sense.h"

#include <string.h>

struct Plate {
    GPtrArray *records; /* Record *, by rising number */
    FeatureId next_id;
    GPtrArray *unknown; /* char *: key and text in turn */
};

Plate *plate_new_empty(void)
{
    Plate *plate = g_new0(Plate, 1);
    plate->records = g_ptr_array_new_with_free_func((GDestroyNotify)record_unref);
    plate->unknown = g_ptr_array_new_with_free_func(g_free);
    plate->next_id = ID_FIRST_FREE;
    return plate;
}

Plate *plate_new(Length length, Length width, Length thickness, PlateUnit unit)
{
    Plate *plate = plate_new_empty();
    Record *settings = record_new(ID_SETTINGS, RECORD_SETTINGS);
    settings->settings.unit = unit;
    settings->settings.standard = unit == PLATE_INCH ? SHEET_STANDARD_ASME : SHEET_STANDARD_ISO;
    settings->settings.projection = unit == PLATE_INCH ? PROJECTION_THIRD : PROJECTION_FIRST;
    settings->settings.stock = (Stock){length, width, thickness, METAL_ALUMINIUM, NULL};
    plate_put(plate, settings, NULL);
    Record *top = record_new(ID_TOP, RECORD_FACE);
    top->face.name = g_strdup("top");
    plate_put(plate, top, NULL);
    return plate;
}

void plate_free(Plate *plate)
{
    if (!plate)
        return;
    g_ptr_array_unref(plate->records);
    g_ptr_array_unref(plate->unknown);
    g_free(plate);
}

/* The index of the first record whose number is `id` or larger. */
static uint32_t slot_of(const Plate *plate, FeatureId id)
{
    uint32_t low = 0, high = plate->records->len;
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        if (((Record *)plate->records->pdata[middle])->id < id)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

const Record *plate_find(const Plate *plate, FeatureId id)
{
    uint32_t slot = slot_of(plate, id);
    if (slot == plate->records->len)
        return NULL;
    const Record *record = plate->records->pdata[slot];
    return record->id == id ? record : NULL;
}

const Record *plate_find_kind(const Plate *plate, FeatureId id, RecordKind kind)
{
    const Record *record = plate_find(plate, id);
    return record && record->kind == kind ? record : NULL;
}

const Settings *plate_settings(const Plate *plate)
{
    return &plate_find(plate, ID_SETTINGS)->settings;
}

uint32_t plate_count(const Plate *plate)
{
    return plate->records->len;
}

const Record *plate_at(const Plate *plate, uint32_t i)
{
    return plate->records->pdata[i];
}

FeatureId plate_new_id(Plate *plate)
{
    return plate->next_id++;
}

FeatureId plate_next_id(const Plate *plate)
{
    return plate->next_id;
}

bool plate_give_back_id(Plate *plate, FeatureId id)
{
    if (id != plate->next_id - 1 || id < ID_FIRST_FREE || plate_find(plate, id))
        return false;
    plate->next_id = id;
    return true;
}

void plate_reserve_ids(Plate *plate, FeatureId id)
{
    plate->next_id = MAX(plate->next_id, id);
}

static void set_record(Plate *plate, FeatureId id, Record *record)
{
    uint32_t slot = slot_of(plate, id);
    bool there = slot < plate->records->len && plate_at(plate, slot)->id == id;
    if (there && record) {
        record_unref(plate->records->pdata[slot]);
        plate->records->pdata[slot] = record;
    } else if (there) {
        g_ptr_array_remove_index(plate->records, slot);
    } else if (record) {
        g_ptr_array_insert(plate->records, (int)slot, record);
    }
    plate_reserve_ids(plate, id + 1);
}

bool plate_put(Plate *plate, Record *record, Error *error)
{
    if (plate_find(plate, record->id)) {
        error_set(error, ERROR_FORMAT, "id", "the number %u is used twice", record->id);
        record_unref(record);
        return false;
    }
    if (plate->records->len >= PLATE_RECORDS_MOST) {
        error_set(error, ERROR_LIMIT, NULL, "the plate has more than %d records",
                  PLATE_RECORDS_MOST);
        record_unref(record);
        return false;
    }
    set_record(plate, record->id, record);
    return true;
}

void plate_keep_unknown(Plate *plate, const char *key, const char *text)
{
    g_ptr_array_add(plate->unknown, g_strdup(key));
    g_ptr_array_add(plate->unknown, g_strdup(text));
}

uint32_t plate_unknown_count(const Plate *plate)
{
    return plate->unknown->len / 2;
}

const char *plate_unknown_key(const Plate *plate, uint32_t i)
{
    return plate->unknown->pdata[2 * i];
}

const char *plate_unknown_text(const Plate *plate, uint32_t i)
{
    return plate->unknown->pdata[2 * i + 1];
}

/* --- references and sense ------------------------------------------------------------------- */

typedef struct ReferenceCheck {
    const Plate *plate;
    const Record *from;
    Error *error;
} ReferenceCheck;

static bool check_reference(FeatureId id, const Field *field, void *data)
{
    const ReferenceCheck *check = data;
    if (!field->refers_to)
        return true;
    const Record *to = plate_find(check->plate, id);
    char place[80];
    g_snprintf(place, sizeof place, "%s %u, %s", record_kind_key(check->from->kind),
               check->from->id, field->key);
    if (id == ID_NONE)
        return error_set(check->error, ERROR_CONFLICT, place, "names none, but one is needed");
    if (!to)
        return error_set(check->error, ERROR_CONFLICT, place, "refers to %u, which does not exist",
                         id);
    if (!(field->refers_to & REFERS_TO(to->kind)))
        return error_set(check->error, ERROR_CONFLICT, place, "refers to %u, which is a %s", id,
                         record_kind_key(to->kind));
    return true;
}

static bool check_record(const Plate *plate, const Record *record, Error *error)
{
    ReferenceCheck check = {plate, record, error};
    return schema_each_reference(record_schema(record->kind), record_body_const(record),
                                 check_reference, &check) &&
           record_sense(plate, record, error);
}

bool plate_check(const Plate *plate, Error *error)
{
    if (!plate_find_kind(plate, ID_SETTINGS, RECORD_SETTINGS))
        return error_set(error, ERROR_FORMAT, "plate", "the plate's own settings are missing");
    const Record *top = plate_find_kind(plate, ID_TOP, RECORD_FACE);
    if (!top || top->face.kind != FACE_TOP)
        return error_set(error, ERROR_FORMAT, "faces", "the face top (number %u) is missing",
                         ID_TOP);
    for (uint32_t i = 0; i < plate->records->len; i++)
        if (!check_record(plate, plate_at(plate, i), error))
            return false;
    return true;
}

typedef struct ReferenceSearch {
    FeatureId wanted;
    bool found;
} ReferenceSearch;

static bool search_reference(FeatureId id, const Field *field, void *data)
{
    ReferenceSearch *search = data;
    search->found = search->found || (field->refers_to && id == search->wanted);
    return !search->found;
}

static const Record *first_referring(const Plate *plate, FeatureId id)
{
    ReferenceSearch search = {id, false};
    for (uint32_t i = 0; i < plate->records->len; i++) {
        const Record *record = plate_at(plate, i);
        if (record->id != id)
            schema_each_reference(record_schema(record->kind), record_body_const(record),
                                  search_reference, &search);
        if (search.found)
            return record;
    }
    return NULL;
}

bool plate_refers_to(const Plate *plate, FeatureId id)
{
    return first_referring(plate, id) != NULL;
}

/* --- edits ---------------------------------------------------------------------------------- */

/* A made record may lose its mark, or keep it and change in what is no metal: its label alone. */
static bool made_is_respected(const Record *before, const Record *after)
{
    if (!before || !record_made(before))
        return true;
    if (!after)
        return false;
    if (!record_made(after))
        return true;
    Record *as_after = record_copy(before, before->id);
    char **label = as_after->kind == RECORD_HOLE      ? &as_after->hole.label
                   : as_after->kind == RECORD_RECESS  ? &as_after->recess.label
                   : as_after->kind == RECORD_STATION ? &as_after->station.label
                                                      : &as_after->fitting.label;
    g_free(*label);
    *label = g_strdup(record_label(after));
    bool same = record_equal(as_after, after);
    record_unref(as_after);
    return same;
}

static bool check_change(const Plate *plate, const RecordChange *change, Error *error)
{
    char place[48];
    const Record *now = plate_find(plate, change->id);
    const Record *named = change->before ? change->before : change->after;
    g_snprintf(place, sizeof place, "%s %u", record_kind_key(named->kind), change->id);
    if (!record_equal(now, change->before))
        return error_set(error, ERROR_CONFLICT, place,
                         "is not as the edit expects it; nothing was changed");
    if (change->before && change->after && change->before->kind != change->after->kind)
        return error_set(error, ERROR_CONFLICT, place, "can't become another kind of thing");
    if (!made_is_respected(change->before, change->after))
        return error_set(error, ERROR_CONFLICT, place,
                         "is made: it can be used but not changed; take the mark off first");
    if (!change->after && (change->id == ID_SETTINGS || change->id == ID_TOP))
        return error_set(error, ERROR_CONFLICT, place, "belongs to every plate and can't go");
    return true;
}

static bool check_removal(const Plate *plate, FeatureId id, Error *error)
{
    const Record *referring = first_referring(plate, id);
    if (!referring)
        return true;
    char place[48];
    g_snprintf(place, sizeof place, "%s %u", record_kind_key(referring->kind), referring->id);
    return error_set(error, ERROR_CONFLICT, place, "still refers to %u, which can't go", id);
}

/* Records that name the changed one may have lost their sense by it: a nest whose station's part
 * lost its blank, say. The kinds that others build on are few and seldom changed. */
static bool others_keep_sense(const Plate *plate, const RecordChange *change, Error *error)
{
    RecordKind kind = (change->after ? change->after : change->before)->kind;
    if (kind != RECORD_PART && kind != RECORD_FACE && kind != RECORD_SETTINGS)
        return true;
    for (uint32_t i = 0; i < plate->records->len; i++)
        if (!record_sense(plate, plate_at(plate, i), error))
            return false;
    return true;
}

static bool check_result(const Plate *plate, const Edit *edit, Error *error)
{
    if (plate->records->len > PLATE_RECORDS_MOST)
        return error_set(error, ERROR_LIMIT, NULL, "a plate holds at most %d records",
                         PLATE_RECORDS_MOST);
    for (uint32_t i = 0; i < edit->count; i++) {
        const RecordChange *change = &edit->changes[i];
        if (change->after ? !check_record(plate, change->after, error)
                          : !check_removal(plate, change->id, error))
            return false;
        if (!others_keep_sense(plate, change, error))
            return false;
    }
    return true;
}

bool plate_apply(Plate *plate, const Edit *edit, Edit *inverse, ChangeSet *changes, Error *error)
{
    FeatureId next_id = plate->next_id;
    for (uint32_t i = 0; i < edit->count; i++)
        if (!check_change(plate, &edit->changes[i], error))
            return false;
    for (uint32_t i = 0; i < edit->count; i++)
        set_record(plate, edit->changes[i].id, record_ref(edit->changes[i].after));
    if (!check_result(plate, edit, error)) {
        for (uint32_t i = 0; i < edit->count; i++)
            set_record(plate, edit->changes[i].id, record_ref(edit->changes[i].before));
        plate->next_id = next_id;
        return false;
    }
    if (inverse) {
        *inverse = EDIT_EMPTY;
        edit_set_name(inverse, edit->name);
        for (uint32_t i = edit->count; i-- > 0;)
            edit_add(inverse, record_ref(edit->changes[i].after),
                     record_ref(edit->changes[i].before));
    }
    for (uint32_t i = 0; changes && i < edit->count; i++) {
        const RecordChange *change = &edit->changes[i];
        RecordKind kind = (change->after ? change->after : change->before)->kind;
        change_set_add(changes,
                       (Change){change->id, kind, change->before != NULL, change->after != NULL});
    }
    return true;
}

bool plate_equal(const Plate *a, const Plate *b)
{
    if (a->records->len != b->records->len || a->next_id != b->next_id)
        return false;
    for (uint32_t i = 0; i < a->records->len; i++)
        if (!record_equal(plate_at(a, i), plate_at(b, i)))
            return false;
    return true;
}

/* --- finding one's way ---------------------------------------------------------------------- */

Pose plate_pose(const Plate *plate, const Record *record)
{
    Place at = {0, 0};
    Angle rotation = 0;
    const Place *place = record_place_const(record);
    const Angle *turned = record_rotation((Record *)record);
    if (place)
        at = *place;
    if (turned)
        rotation = *turned;
    bool over = record->kind == RECORD_STATION && record->station.turned_over;
    Pose own = pose_from_model(at.x, at.y, rotation, over);
    const Record *station = plate_find(plate, record_station(record));
    if (!station)
        return own;
    return pose_after(pose_from_model(station->station.at.x, station->station.at.y,
                                      station->station.rotation, station->station.turned_over),
                      own);
}

static Place corner_place(const Stock *stock, int corner)
{
    bool right = corner == CORNER_FRONT_RIGHT || corner == CORNER_BACK_RIGHT;
    bool back = corner == CORNER_BACK_LEFT || corner == CORNER_BACK_RIGHT;
    return (Place){right ? stock->length : 0, back ? stock->width : 0};
}

Place plate_datum(const Plate *plate)
{
    const Settings *settings = plate_settings(plate);
    const Datum *datum = &settings->datum;
    const Record *hole = plate_find_kind(plate, datum->hole, RECORD_HOLE);
    if (datum->kind == DATUM_POINT)
        return datum->at;
    if (datum->kind == DATUM_CORNER || !hole)
        return corner_place(&settings->stock, datum->corner);
    if (!hole->hole.station)
        return hole->hole.at;
    Pose pose = plate_pose(plate, hole);
    return (Place){length_from_mm(pose.x), length_from_mm(pose.y)};
}
