#include "plate/plate-file.h"

#include "plate/json-strict.h"
#include "plate/sense.h"

#include <string.h>

/* --- writing ------------------------------------------------------------------------------- */

static void open_document(JsonText *text, const char *format)
{
    json_text_open(text, '{');
    json_text_key(text, "format");
    json_text_string(text, format);
    json_text_key(text, "version");
    json_text_whole(text, FILE_VERSION);
}

static char *close_document(JsonText *text, size_t *size)
{
    json_text_close(text, '}');
    json_text_raw(text, "\n", 1);
    return json_text_take(text, size);
}

static void write_records(JsonText *text, const Plate *plate, RecordKind kind)
{
    json_text_key(text, record_list_key(kind));
    json_text_open(text, '[');
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        if (plate_at(plate, i)->kind != kind)
            continue;
        json_text_next(text);
        record_write(plate_at(plate, i), false, text);
    }
    json_text_close(text, ']');
}

static void write_unknown(JsonText *text, const Plate *plate)
{
    for (uint32_t i = 0; i < plate_unknown_count(plate); i++) {
        json_object *kept = json_tokener_parse(plate_unknown_text(plate, i));
        json_text_foreign_key(text, plate_unknown_key(plate, i));
        json_text_tree(text, kept);
        json_object_put(kept);
    }
}

char *plate_text(const Plate *plate, size_t *size)
{
    JsonText text = JSON_TEXT_LINES;
    open_document(&text, PLATE_FORMAT);
    json_text_key(&text, "next_id");
    json_text_whole(&text, plate_next_id(plate));
    json_text_key(&text, record_list_key(RECORD_SETTINGS));
    record_write(plate_find(plate, ID_SETTINGS), false, &text);
    for (int kind = RECORD_FACE; kind < RECORD_KINDS; kind++)
        write_records(&text, plate, kind);
    write_unknown(&text, plate);
    return close_document(&text, size);
}

char *part_text(const Part *part, size_t *size)
{
    JsonText text = JSON_TEXT_LINES;
    open_document(&text, PART_FORMAT);
    schema_write(&part_schema, part, &text);
    return close_document(&text, size);
}

/* --- reading ------------------------------------------------------------------------------- */

static bool check_document(json_object *json, const char *format, Error *error)
{
    json_object *value;
    if (!json_object_is_type(json, json_type_object) ||
        !json_object_object_get_ex(json, "format", &value) ||
        !json_object_is_type(value, json_type_string))
        return error_set(error, ERROR_FORMAT, "format", "this is not a file of this program");
    if (strcmp(json_object_get_string(value), format) != 0)
        return error_set(error, ERROR_FORMAT, "format", "is \"%.40s\", but \"%s\" is needed here",
                         json_object_get_string(value), format);
    if (!json_object_object_get_ex(json, "version", &value) ||
        !json_object_is_type(value, json_type_int) || json_object_get_int64(value) < 1)
        return error_set(error, ERROR_FORMAT, "version", "a whole number from 1 is needed");
    if (json_object_get_int64(value) > FILE_VERSION)
        return error_set(error, ERROR_FORMAT, "version",
                         "is %lld, newer than this program knows (%d); it takes a newer program to "
                         "open this file",
                         (long long)json_object_get_int64(value), FILE_VERSION);
    return true;
}

static bool read_record(Plate *plate, json_object *json, RecordKind kind, Error *error)
{
    Record *record = record_read(json, kind, error);
    return record && plate_put(plate, record, error);
}

static bool read_list(Plate *plate, json_object *json, RecordKind kind, Error *error)
{
    const char *key = record_list_key(kind);
    json_object *list;
    if (!json_object_object_get_ex(json, key, &list))
        return true;
    if (kind == RECORD_SETTINGS) {
        if (read_record(plate, list, kind, error))
            return true;
        error_within(error, key);
        return false;
    }
    if (!json_object_is_type(list, json_type_array))
        return error_set(error, ERROR_FORMAT, key, "a list in square brackets is needed here");
    for (size_t i = 0; i < json_object_array_length(list); i++) {
        if (!read_record(plate, json_object_array_get_idx(list, i), kind, error)) {
            char place[48];
            g_snprintf(place, sizeof place, "%s[%zu]", key, i);
            error_within(error, place);
            return false;
        }
    }
    return true;
}

static bool read_next_id(Plate *plate, json_object *json, Error *error)
{
    json_object *value;
    if (!json_object_object_get_ex(json, "next_id", &value))
        return true;
    if (!json_object_is_type(value, json_type_int) || json_object_get_int64(value) < 1 ||
        json_object_get_int64(value) > ID_MOST)
        return error_set(error, ERROR_FORMAT, "next_id", "a whole number from 1 to %u is needed",
                         ID_MOST);
    plate_reserve_ids(plate, (FeatureId)json_object_get_int64(value));
    return true;
}

static bool is_own_key(const char *key)
{
    if (strcmp(key, "format") == 0 || strcmp(key, "version") == 0 || strcmp(key, "next_id") == 0)
        return true;
    for (int kind = 0; kind < RECORD_KINDS; kind++)
        if (strcmp(key, record_list_key(kind)) == 0)
            return true;
    return false;
}

static void keep_unknown(Plate *plate, json_object *json)
{
    json_object_object_foreach(json, key, value)
    {
        if (!is_own_key(key))
            plate_keep_unknown(plate, key,
                               json_object_to_json_string_ext(value, JSON_C_TO_STRING_PLAIN));
    }
}

static bool fill_plate(Plate *plate, json_object *json, Error *error)
{
    if (!check_document(json, PLATE_FORMAT, error))
        return false;
    for (int kind = 0; kind < RECORD_KINDS; kind++)
        if (!read_list(plate, json, kind, error))
            return false;
    keep_unknown(plate, json);
    return read_next_id(plate, json, error) && plate_check(plate, error);
}

Plate *plate_parse(const char *bytes, size_t size, Error *error)
{
    json_object *json = json_strict_parse(bytes, size, error);
    if (!json)
        return NULL;
    Plate *plate = plate_new_empty();
    if (!fill_plate(plate, json, error)) {
        plate_free(plate);
        plate = NULL;
    }
    json_object_put(json);
    return plate;
}

static bool fill_part(Record *record, json_object *json, Error *error)
{
    static const char *const own_keys[] = {"format", "version", NULL};
    return check_document(json, PART_FORMAT, error) &&
           schema_read(&part_schema, json, own_keys, &record->part, error) &&
           record_sense(NULL, record, error);
}

Record *part_parse(const char *bytes, size_t size, Error *error)
{
    json_object *json = json_strict_parse(bytes, size, error);
    if (!json)
        return NULL;
    Record *record = record_new(ID_NONE, RECORD_PART);
    if (!fill_part(record, json, error)) {
        record_unref(record);
        record = NULL;
    }
    json_object_put(json);
    return record;
}

Plate *plate_read(const char *path, FileStamp *stamp, Error *error)
{
    size_t size;
    char *bytes = read_bytes(path, JSON_BYTES_MOST, &size, stamp, error);
    if (!bytes)
        return NULL;
    Plate *plate = plate_parse(bytes, size, error);
    g_free(bytes);
    if (!plate)
        error_set_file(error, path);
    return plate;
}

Record *part_read(const char *path, Error *error)
{
    size_t size;
    char *bytes = read_bytes(path, JSON_BYTES_MOST, &size, NULL, error);
    if (!bytes)
        return NULL;
    Record *record = part_parse(bytes, size, error);
    g_free(bytes);
    if (!record)
        error_set_file(error, path);
    return record;
}

bool plate_save(const Plate *plate, const char *path, FileStamp *stamp, Error *error)
{
    size_t size;
    char *bytes = plate_text(plate, &size);
    bool saved = save_bytes(path, bytes, size, stamp, error);
    g_free(bytes);
    return saved;
}

bool part_save(const Part *part, const char *path, Error *error)
{
    size_t size;
    char *bytes = part_text(part, &size);
    bool saved = save_bytes(path, bytes, size, NULL, error);
    g_free(bytes);
    return saved;
}
