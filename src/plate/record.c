#include "plate/record.h"

#include <string.h>

static const struct {
    const Schema *schema;
    const char *list_key, *kind_key;
} kinds[RECORD_KINDS] = {
    [RECORD_SETTINGS] = {&settings_schema, "plate", "plate"},
    [RECORD_FACE] = {&face_schema, "faces", "face"},
    [RECORD_BASE] = {&base_schema, "bases", "base"},
    [RECORD_PART] = {&part_schema, "parts", "part"},
    [RECORD_STATION] = {&station_schema, "stations", "station"},
    [RECORD_HOLE] = {&hole_schema, "holes", "hole"},
    [RECORD_RECESS] = {&recess_schema, "recesses", "recess"},
    [RECORD_FITTING] = {&fitting_schema, "fittings", "fitting"},
    [RECORD_KEEP_CLEAR] = {&keep_clear_schema, "keep_clears", "keep-clear"},
    [RECORD_OPERATION] = {&operation_schema, "operations", "operation"},
};

const Schema *record_schema(RecordKind kind)
{
    return kinds[kind].schema;
}

const char *record_list_key(RecordKind kind)
{
    return kinds[kind].list_key;
}

const char *record_kind_key(RecordKind kind)
{
    return kinds[kind].kind_key;
}

void *record_body(Record *record)
{
    return &record->settings;
}

const void *record_body_const(const Record *record)
{
    return &record->settings;
}

Record *record_new(FeatureId id, RecordKind kind)
{
    Record *record = g_new0(Record, 1);
    record->id = id;
    record->kind = kind;
    record->references = 1;
    return record;
}

Record *record_copy(const Record *record, FeatureId id)
{
    Record *copy = record_new(id, record->kind);
    schema_copy(kinds[record->kind].schema, record_body(copy), record_body_const(record));
    return copy;
}

Record *record_ref(const Record *record)
{
    Record *shared = (Record *)record;
    if (shared)
        shared->references++;
    return shared;
}

void record_unref(const Record *record)
{
    Record *shared = (Record *)record;
    if (!shared || --shared->references > 0)
        return;
    schema_clear(kinds[shared->kind].schema, record_body(shared));
    g_free(shared);
}

bool record_equal(const Record *a, const Record *b)
{
    if (a == b)
        return true;
    return a && b && a->id == b->id && a->kind == b->kind &&
           schema_equal(kinds[a->kind].schema, record_body_const(a), record_body_const(b));
}

FeatureId record_face(const Record *record)
{
    switch (record->kind) {
    case RECORD_STATION:
        return record->station.face;
    case RECORD_HOLE:
        return record->hole.face;
    case RECORD_RECESS:
        return record->recess.face;
    case RECORD_KEEP_CLEAR:
        return record->keep_clear.face;
    default:
        return ID_NONE;
    }
}

FeatureId record_station(const Record *record)
{
    switch (record->kind) {
    case RECORD_HOLE:
        return record->hole.station;
    case RECORD_RECESS:
        return record->recess.station;
    case RECORD_FITTING:
        return record->fitting.station;
    default:
        return ID_NONE;
    }
}

bool record_made(const Record *record)
{
    switch (record->kind) {
    case RECORD_STATION:
        return record->station.made;
    case RECORD_HOLE:
        return record->hole.made;
    case RECORD_RECESS:
        return record->recess.made;
    case RECORD_FITTING:
        return record->fitting.made;
    default:
        return false;
    }
}

bool record_locked(const Record *record)
{
    switch (record->kind) {
    case RECORD_STATION:
        return record->station.locked;
    case RECORD_HOLE:
        return record->hole.locked;
    case RECORD_RECESS:
        return record->recess.locked;
    case RECORD_KEEP_CLEAR:
        return record->keep_clear.locked;
    default:
        return false;
    }
}

const char *record_label(const Record *record)
{
    switch (record->kind) {
    case RECORD_STATION:
        return record->station.label;
    case RECORD_HOLE:
        return record->hole.label;
    case RECORD_RECESS:
        return record->recess.label;
    case RECORD_FITTING:
        return record->fitting.label;
    case RECORD_KEEP_CLEAR:
        return record->keep_clear.name;
    case RECORD_PART:
        return record->part.name;
    case RECORD_FACE:
        return record->face.name;
    default:
        return NULL;
    }
}

Place *record_place(Record *record)
{
    switch (record->kind) {
    case RECORD_STATION:
        return &record->station.at;
    case RECORD_HOLE:
        return &record->hole.at;
    case RECORD_RECESS:
        return &record->recess.at;
    case RECORD_FITTING:
        return record->fitting.kind == FITTING_EDGE_CLAMP ? &record->fitting.at : NULL;
    case RECORD_KEEP_CLEAR:
        return &record->keep_clear.at;
    default:
        return NULL;
    }
}

const Place *record_place_const(const Record *record)
{
    return record_place((Record *)record);
}

Angle *record_rotation(Record *record)
{
    switch (record->kind) {
    case RECORD_STATION:
        return &record->station.rotation;
    case RECORD_RECESS:
        return &record->recess.rotation;
    case RECORD_FITTING:
        return record->fitting.kind == FITTING_EDGE_CLAMP ? &record->fitting.rotation : NULL;
    case RECORD_KEEP_CLEAR:
        return &record->keep_clear.rotation;
    default:
        return NULL;
    }
}

void record_write(const Record *record, bool with_kind, JsonText *text)
{
    json_text_open(text, '{');
    if (with_kind) {
        json_text_key(text, "record");
        json_text_string(text, record_kind_key(record->kind));
    }
    json_text_key(text, "id");
    json_text_whole(text, record->id);
    schema_write(kinds[record->kind].schema, record_body_const(record), text);
    json_text_close(text, '}');
}

static bool read_kind(json_object *json, int *kind, Error *error)
{
    json_object *word;
    if (!json_object_object_get_ex(json, "record", &word) ||
        !json_object_is_type(word, json_type_string))
        return error_set(error, ERROR_FORMAT, "record", "the kind of record is missing");
    for (*kind = 0; *kind < RECORD_KINDS; (*kind)++)
        if (strcmp(kinds[*kind].kind_key, json_object_get_string(word)) == 0)
            return true;
    return error_set(error, ERROR_FORMAT, "record", "\"%.40s\" is no kind of record",
                     json_object_get_string(word));
}

Record *record_read(json_object *json, int kind, Error *error)
{
    static const char *const own_keys[] = {"record", "id", NULL};
    json_object *id;
    if (!json_object_is_type(json, json_type_object)) {
        error_set(error, ERROR_FORMAT, NULL, "an object in braces is needed here");
        return NULL;
    }
    if (kind < 0 && !read_kind(json, &kind, error))
        return NULL;
    if (!json_object_object_get_ex(json, "id", &id) || !json_object_is_type(id, json_type_int) ||
        json_object_get_int64(id) < 1 || json_object_get_int64(id) >= ID_MOST) {
        error_set(error, ERROR_FORMAT, "id", "a whole number from 1 to %u is needed", ID_MOST - 1);
        return NULL;
    }
    Record *record = record_new((FeatureId)json_object_get_int64(id), (RecordKind)kind);
    if (schema_read(kinds[kind].schema, json, own_keys, record_body(record), error))
        return record;
    record_unref(record);
    return NULL;
}
