/* Writing a record's fields as JSON, by its table. */
#include "plate/schema.h"

#include "plate/outline-node.h"

#include <string.h>

/* A row of numbers stands on one line, so that a place reads as a place. */
static void write_row(JsonText *text, const int64_t *millionths, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        json_text_raw(text, i ? ", " : "[", i ? 2 : 1);
        json_text_millionths(text, millionths[i]);
    }
    json_text_raw(text, "]", 1);
}

static void write_place(JsonText *text, const Place *place)
{
    write_row(text, (const int64_t[]){place->x, place->y}, 2);
}

static void write_vertices(JsonText *text, const List *list)
{
    json_text_open(text, '[');
    for (uint32_t i = 0; i < list->count; i++) {
        const OutlineNode *node = LIST_AT(list, OutlineNode, i);
        json_text_next(text);
        write_row(text, (const int64_t[]){node->x, node->y, node->sagitta}, node->sagitta ? 3 : 2);
    }
    json_text_close(text, ']');
}

static void write_references(JsonText *text, const List *list)
{
    for (uint32_t i = 0; i < list->count; i++) {
        json_text_raw(text, i ? ", " : "[", i ? 2 : 1);
        json_text_whole(text, *LIST_AT(list, FeatureId, i));
    }
    json_text_raw(text, "]", 1);
}

static void write_list(const Field *field, const List *list, JsonText *text)
{
    json_text_open(text, '[');
    for (uint32_t i = 0; i < list->count; i++) {
        json_text_next(text);
        json_text_open(text, '{');
        schema_write(field->of, (const char *)list->items + i * field->of->size, text);
        json_text_close(text, '}');
    }
    json_text_close(text, ']');
}

static void write_object(const Schema *schema, const void *object, json_object *outer,
                         JsonText *text);

/* A group that has nothing to say is left out, its key with it. */
static void write_group(const Field *field, const void *value, json_object *kept, JsonText *text)
{
    JsonText before = *text;
    json_text_key(text, field->key);
    json_text_open(text, '{');
    write_object(field->of, value, kept, text);
    bool empty = text->first;
    json_text_close(text, '}');
    if (empty && !field->needed) {
        text->size = before.size;
        text->first = before.first;
    }
}

/* What is zero goes without saying. */
static bool says_something(const Field *field, const void *value)
{
    switch (field->kind) {
    case FIELD_REFERENCE:
        return field->needed || *(const FeatureId *)value != ID_NONE;
    case FIELD_LENGTH:
    case FIELD_NUMBER:
    case FIELD_ANGLE:
        return field->needed || *(const int64_t *)value != 0;
    case FIELD_COUNT:
        return field->needed || *(const int32_t *)value != 0;
    case FIELD_BOOL:
        return *(const bool *)value;
    case FIELD_CHOICE:
        return field->needed || *(const int *)value != 0;
    case FIELD_TEXT:
        return field->needed || *(char *const *)value;
    case FIELD_PLACE:
        return field->needed || ((const Place *)value)->x || ((const Place *)value)->y;
    case FIELD_VERTICES:
        return true;
    case FIELD_REFERENCES:
    case FIELD_LIST:
        return field->needed || ((const List *)value)->count > 0;
    case FIELD_GROUP:
    case FIELD_UNKNOWN:
        return false;
    }
    return false;
}

static void write_value(const Field *field, const void *value, JsonText *text)
{
    switch (field->kind) {
    case FIELD_REFERENCE:
        json_text_whole(text, *(const FeatureId *)value);
        break;
    case FIELD_LENGTH:
    case FIELD_NUMBER:
        json_text_millionths(text, *(const int64_t *)value);
        break;
    case FIELD_ANGLE:
        json_text_degrees(text, *(const Angle *)value);
        break;
    case FIELD_COUNT:
        json_text_whole(text, *(const int32_t *)value);
        break;
    case FIELD_BOOL:
        json_text_raw(text, "true", 4);
        break;
    case FIELD_CHOICE:
        json_text_string(text, field->choices[*(const int *)value]);
        break;
    case FIELD_TEXT:
        json_text_string(text, *(char *const *)value ? *(char *const *)value : "");
        break;
    case FIELD_PLACE:
        write_place(text, value);
        break;
    case FIELD_VERTICES:
        write_vertices(text, value);
        break;
    case FIELD_REFERENCES:
        write_references(text, value);
        break;
    case FIELD_LIST:
        write_list(field, value, text);
        break;
    case FIELD_GROUP:
    case FIELD_UNKNOWN:
        break;
    }
}

/* What the record keeps of an object's unknown keys, to be released; NULL when there is nothing. */
static json_object *kept_in(const Schema *schema, const void *object)
{
    for (size_t i = 0; i < schema->count; i++) {
        const char *text = schema->fields[i].kind == FIELD_UNKNOWN
                               ? *(char *const *)((const char *)object + schema->fields[i].offset)
                               : NULL;
        if (text)
            return json_tokener_parse(text);
    }
    return NULL;
}

static bool is_group(const Schema *schema, const char *key)
{
    for (size_t i = 0; i < schema->count; i++)
        if (schema->fields[i].kind == FIELD_GROUP && strcmp(schema->fields[i].key, key) == 0)
            return true;
    return false;
}

/* Under a group's key stands what the group has written. */
static void write_kept(const Schema *schema, json_object *kept, JsonText *text)
{
    if (!json_object_is_type(kept, json_type_object))
        return;
    json_object_object_foreach(kept, key, value)
    {
        if (is_group(schema, key))
            continue;
        json_text_foreign_key(text, key);
        json_text_tree(text, value);
    }
}

/* `outer`: the unknown keys of a group that has no room for them, kept by what it stands in. */
static void write_object(const Schema *schema, const void *object, json_object *outer,
                         JsonText *text)
{
    json_object *own = kept_in(schema, object), *kept = own ? own : outer;
    for (size_t i = 0; i < schema->count; i++) {
        const Field *field = &schema->fields[i];
        const void *value = (const char *)object + field->offset;
        if (field->kind == FIELD_GROUP) {
            write_group(field, value, json_object_object_get(kept, field->key), text);
        } else if (says_something(field, value)) {
            json_text_key(text, field->key);
            write_value(field, value, text);
        }
    }
    write_kept(schema, kept, text);
    json_object_put(own);
}

void schema_write(const Schema *schema, const void *object, JsonText *text)
{
    write_object(schema, object, NULL, text);
}
