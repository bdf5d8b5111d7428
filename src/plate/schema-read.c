/* Reading a record's fields from JSON, by its table. */
#include "plate/schema.h"

#include "plate/outline-node.h"

#include <string.h>

static void *at(void *object, const Field *field)
{
    return (char *)object + field->offset;
}

static bool is_number(json_object *json)
{
    return json_object_is_type(json, json_type_int) || json_object_is_type(json, json_type_double);
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
    if (!millionths_read(json_object_get_string(json), INT64_MAX / 2, value))
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
    if (!angle_read(json_object_get_string(json), angle))
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
    case FIELD_GROUP:
        return schema_read(field->of, json, NULL, value, error);
    case FIELD_REFERENCES:
    case FIELD_VERTICES:
    case FIELD_LIST:
        return read_list(json, field, value, error);
    case FIELD_UNKNOWN:
        return true;
    }
    return false;
}

static const Field *field_by_key(const Schema *schema, const char *key)
{
    for (size_t i = 0; i < schema->count; i++)
        if (schema->fields[i].kind != FIELD_UNKNOWN && strcmp(schema->fields[i].key, key) == 0)
            return &schema->fields[i];
    return NULL;
}

static void keep_unknown(const Schema *schema, json_object *json, const char *const *passed_over,
                         void *object)
{
    const Field *unknown = NULL;
    for (size_t i = 0; i < schema->count; i++)
        if (schema->fields[i].kind == FIELD_UNKNOWN)
            unknown = &schema->fields[i];
    json_object *kept = NULL;
    json_object_object_foreach(json, key, value)
    {
        if (field_by_key(schema, key) || (passed_over && g_strv_contains(passed_over, key)))
            continue;
        if (!kept)
            kept = json_object_new_object();
        json_object_object_add(kept, key, json_object_get(value));
    }
    if (kept && unknown)
        *(char **)at(object, unknown) =
            g_strdup(json_object_to_json_string_ext(kept, JSON_C_TO_STRING_PLAIN));
    json_object_put(kept);
}

bool schema_read(const Schema *schema, json_object *json, const char *const *passed_over,
                 void *object, Error *error)
{
    memset(object, 0, schema->size);
    if (!json_object_is_type(json, json_type_object))
        return error_set(error, ERROR_FORMAT, NULL, "a %s in braces is needed here", schema->name);
    for (size_t i = 0; i < schema->count; i++) {
        const Field *field = &schema->fields[i];
        json_object *value;
        if (field->kind == FIELD_UNKNOWN)
            continue;
        if (!json_object_object_get_ex(json, field->key, &value)) {
            if (!field->needed)
                continue;
            error_set(error, ERROR_FORMAT, field->key, "is missing from this %s", schema->name);
        } else if (read_field(value, field, at(object, field), error)) {
            continue;
        } else {
            error_within(error, field->key);
        }
        schema_clear(schema, object);
        return false;
    }
    keep_unknown(schema, json, passed_over, object);
    return true;
}
