/* Reading a record's fields from JSON, by its table. */
#include "plate/schema.h"

#include "plate/outline-node.h"

#include <string.h>

#define MILLION 1000000

static void *at(void *object, const Field *field)
{
    return (char *)object + field->offset;
}

static bool is_number(json_object *json)
{
    return json_object_is_type(json, json_type_int) || json_object_is_type(json, json_type_double);
}

/* The number as the file has it. json-c keeps a decimal's text beside its double; asking for it as
 * a string would copy it first. */
static const char *number_text(json_object *json)
{
    const char *text =
        json_object_is_type(json, json_type_double) ? json_object_get_userdata(json) : NULL;
    return text ? text : json_object_get_string(json);
}

/* A whole number has no text and gets none made for it. */
static bool to_millionths(json_object *json, int64_t *value)
{
    const int64_t most = INT64_MAX / 2 / MILLION;
    if (!json_object_is_type(json, json_type_int))
        return millionths_read(number_text(json), INT64_MAX / 2, value);
    int64_t whole = json_object_get_int64(json);
    if (whole < -most || whole > most)
        return false;
    *value = whole * MILLION;
    return true;
}

static bool read_millionths(json_object *json, const Field *field, int64_t *value, Error *error)
{
    int64_t least = field->least, greatest = field->greatest;
    if (!least && !greatest) {
        least = -LENGTH_GREATEST;
        greatest = LENGTH_GREATEST;
    }
    if (!is_number(json))
        return error_set(error, ERROR_FORMAT, NULL, "a number is needed here");
    if (!to_millionths(json, value))
        return error_set(error, ERROR_FORMAT, NULL,
                         "%.40s is out of range or has more than six decimal places",
                         json_object_get_string(json));
    if (*value < least || *value > greatest) {
        char low[LENGTH_TEXT], high[LENGTH_TEXT];
        millionths_write(least, low);
        millionths_write(greatest, high);
        return error_set(error, ERROR_LIMIT, NULL, "%.40s is not between %s and %s",
                         json_object_get_string(json), low, high);
    }
    return true;
}

static bool read_whole(json_object *json, int64_t least, int64_t greatest, int64_t *value,
                       Error *error)
{
    if (!json_object_is_type(json, json_type_int))
        return error_set(error, ERROR_FORMAT, NULL, "a whole number is needed here");
    *value = json_object_get_int64(json);
    if (*value < least || *value > greatest)
        return error_set(error, ERROR_LIMIT, NULL, "%.40s is not between %lld and %lld",
                         json_object_get_string(json), (long long)least, (long long)greatest);
    return true;
}

static bool read_angle(json_object *json, Angle *angle, Error *error)
{
    if (!is_number(json))
        return error_set(error, ERROR_FORMAT, NULL, "a number of degrees is needed here");
    if (!angle_read(number_text(json), angle))
        return error_set(error, ERROR_FORMAT, NULL,
                         "%.40s is not between -360 and 360 degrees or has more than nine decimal "
                         "places",
                         json_object_get_string(json));
    return true;
}

static bool read_choice(json_object *json, const Field *field, int *choice, Error *error)
{
    if (!json_object_is_type(json, json_type_string))
        return error_set(error, ERROR_FORMAT, NULL, "a word is needed here");
    for (int i = 0; field->choices[i]; i++) {
        if (strcmp(field->choices[i], json_object_get_string(json)) == 0) {
            *choice = i;
            return true;
        }
    }
    char *known = g_strjoinv(", ", (char **)field->choices);
    error_set(error, ERROR_FORMAT, NULL, "\"%.40s\" is not one of: %s",
              json_object_get_string(json), known);
    g_free(known);
    return false;
}

static bool read_text(json_object *json, char **text, Error *error)
{
    if (!json_object_is_type(json, json_type_string))
        return error_set(error, ERROR_FORMAT, NULL, "a text in quotes is needed here");
    size_t length = (size_t)json_object_get_string_len(json);
    const char *bytes = json_object_get_string(json);
    if (length > TEXT_MOST)
        return error_set(error, ERROR_LIMIT, NULL, "the text has more than %d bytes", TEXT_MOST);
    if (memchr(bytes, 0, length))
        return error_set(error, ERROR_FORMAT, NULL, "the text holds a zero byte");
    *text = length ? g_strdup(bytes) : NULL;
    return true;
}

static bool read_place(json_object *json, const Field *field, Place *place, Error *error)
{
    if (!json_object_is_type(json, json_type_array) || json_object_array_length(json) != 2)
        return error_set(error, ERROR_FORMAT, NULL, "a place [x, y] is needed here");
    return read_millionths(json_object_array_get_idx(json, 0), field, &place->x, error) &&
           read_millionths(json_object_array_get_idx(json, 1), field, &place->y, error);
}

static bool check_array(json_object *json, Error *error)
{
    if (!json_object_is_type(json, json_type_array))
        return error_set(error, ERROR_FORMAT, NULL, "a list in square brackets is needed here");
    if (json_object_array_length(json) > LIST_MOST)
        return error_set(error, ERROR_LIMIT, NULL, "the list has more than %d entries", LIST_MOST);
    return true;
}

static void within_index(Error *error, size_t index)
{
    char place[24];
    g_snprintf(place, sizeof place, "[%zu]", index);
    error_within(error, place);
}

static bool read_node(json_object *json, OutlineNode *node, Error *error)
{
    static const Field any = {.key = NULL};
    size_t count = json_object_is_type(json, json_type_array) ? json_object_array_length(json) : 0;
    if (count != 2 && count != 3)
        return error_set(error, ERROR_FORMAT, NULL, "a corner [x, y] or [x, y, sagitta] is needed");
    return read_millionths(json_object_array_get_idx(json, 0), &any, &node->x, error) &&
           read_millionths(json_object_array_get_idx(json, 1), &any, &node->y, error) &&
           (count == 2 ||
            read_millionths(json_object_array_get_idx(json, 2), &any, &node->sagitta, error));
}

static bool read_item(json_object *json, const Field *field, void *item, Error *error)
{
    if (field->kind == FIELD_VERTICES)
        return read_node(json, item, error);
    if (field->kind == FIELD_LIST)
        return schema_read(field->of, json, NULL, item, error);
    int64_t id = 0;
    if (!read_whole(json, 1, ID_MOST, &id, error))
        return false;
    *(FeatureId *)item = (FeatureId)id;
    return true;
}

static bool read_list(json_object *json, const Field *field, List *list, Error *error)
{
    size_t size = field->kind == FIELD_VERTICES ? sizeof(OutlineNode)
                  : field->kind == FIELD_LIST   ? field->of->size
                                                : sizeof(FeatureId);
    if (!check_array(json, error))
        return false;
    size_t count = json_object_array_length(json);
    list->items = count ? g_malloc0_n(count, size) : NULL;
    for (size_t i = 0; i < count; i++) {
        list->count = (uint32_t)i + 1;
        if (!read_item(json_object_array_get_idx(json, i), field, (char *)list->items + i * size,
                       error)) {
            within_index(error, i);
            return false;
        }
    }
    return true;
}

static bool read_bool(json_object *json, bool *value, Error *error)
{
    if (!json_object_is_type(json, json_type_boolean))
        return error_set(error, ERROR_FORMAT, NULL, "true or false is needed here");
    *value = json_object_get_boolean(json);
    return true;
}

static bool read_field(json_object *json, const Field *field, void *value, Error *error)
{
    int64_t whole = 0;
    switch (field->kind) {
    case FIELD_REFERENCE:
        if (!read_whole(json, 0, ID_MOST, &whole, error))
            return false;
        *(FeatureId *)value = (FeatureId)whole;
        return true;
    case FIELD_COUNT:
        if (!read_whole(json, field->least, field->greatest ? field->greatest : INT32_MAX, &whole,
                        error))
            return false;
        *(int32_t *)value = (int32_t)whole;
        return true;
    case FIELD_LENGTH:
    case FIELD_NUMBER:
        return read_millionths(json, field, value, error);
    case FIELD_ANGLE:
        return read_angle(json, value, error);
    case FIELD_BOOL:
        return read_bool(json, value, error);
    case FIELD_CHOICE:
        return read_choice(json, field, value, error);
    case FIELD_TEXT:
        return read_text(json, value, error);
    case FIELD_PLACE:
        return read_place(json, field, value, error);
    case FIELD_REFERENCES:
    case FIELD_VERTICES:
    case FIELD_LIST:
        return read_list(json, field, value, error);
    case FIELD_GROUP:
    case FIELD_UNKNOWN:
        return true;
    }
    return false;
}

/* --- an object ------------------------------------------------------------------------------ */

/* The keys of one object as they are gone through. */
typedef struct Keys {
    const Schema *schema;
    uint64_t seen; /* a bit for each of at most FIELDS_MOST fields */
    size_t next;   /* where the next key's field is looked for first */
    json_object *kept;
} Keys;

/* Files of ours have their keys in the table's order, so that the first look mostly finds it. */
static const Field *field_by_key(Keys *keys, const char *key)
{
    const Schema *schema = keys->schema;
    for (size_t i = 0; i < schema->count; i++, keys->next++) {
        if (keys->next >= schema->count)
            keys->next = 0;
        const Field *field = &schema->fields[keys->next];
        if (field->kind != FIELD_UNKNOWN && strcmp(field->key, key) == 0) {
            keys->seen |= UINT64_C(1) << keys->next++;
            return field;
        }
    }
    return NULL;
}

static void keep(Keys *keys, const char *key, json_object *value)
{
    if (!keys->kept)
        keys->kept = json_object_new_object();
    json_object_object_add(keys->kept, key, value);
}

static bool read_object(const Schema *schema, json_object *json, const char *const *passed_over,
                        void *object, json_object **kept, Error *error);

/* What a group's own struct has no room for is kept under its key by what it stands in. */
static bool read_group(Keys *keys, json_object *json, const Field *field, void *value, Error *error)
{
    json_object *kept = NULL;
    if (!read_object(field->of, json, NULL, value, &kept, error))
        return false;
    if (kept)
        keep(keys, field->key, kept);
    return true;
}

static bool read_keys(Keys *keys, json_object *json, const char *const *passed_over, void *object,
                      Error *error)
{
    json_object_object_foreach(json, key, value)
    {
        const Field *field = field_by_key(keys, key);
        if (!field) {
            if (!passed_over || !g_strv_contains(passed_over, key))
                keep(keys, key, json_object_get(value));
        } else if (field->kind == FIELD_GROUP
                       ? !read_group(keys, value, field, at(object, field), error)
                       : !read_field(value, field, at(object, field), error)) {
            error_within(error, field->key);
            return false;
        }
    }
    return true;
}

static bool check_needed(const Keys *keys, Error *error)
{
    for (size_t i = 0; i < keys->schema->count; i++) {
        const Field *field = &keys->schema->fields[i];
        if (field->needed && !(keys->seen >> i & 1))
            return error_set(error, ERROR_FORMAT, field->key, "is missing from this %s",
                             keys->schema->name);
    }
    return true;
}

/* False where the table has no field for it. */
static bool store_kept(const Schema *schema, void *object, json_object *kept)
{
    for (size_t i = 0; i < schema->count; i++) {
        const Field *field = &schema->fields[i];
        if (field->kind != FIELD_UNKNOWN)
            continue;
        *(char **)at(object, field) =
            g_strdup(json_object_to_json_string_ext(kept, JSON_C_TO_STRING_PLAIN));
        return true;
    }
    return false;
}

/* Hands back in `kept` what is unknown and has no place in the object. */
static bool read_object(const Schema *schema, json_object *json, const char *const *passed_over,
                        void *object, json_object **kept, Error *error)
{
    Keys keys = {schema, 0, 0, NULL};
    memset(object, 0, schema->size);
    if (!json_object_is_type(json, json_type_object))
        return error_set(error, ERROR_FORMAT, NULL, "a %s in braces is needed here", schema->name);
    bool good = read_keys(&keys, json, passed_over, object, error) && check_needed(&keys, error);
    if (!good)
        schema_clear(schema, object);
    if (good && keys.kept && !store_kept(schema, object, keys.kept))
        *kept = keys.kept;
    else
        json_object_put(keys.kept);
    return good;
}

bool schema_read(const Schema *schema, json_object *json, const char *const *passed_over,
                 void *object, Error *error)
{
    json_object *kept = NULL;
    bool good = read_object(schema, json, passed_over, object, &kept, error);
    json_object_put(kept);
    return good;
}
