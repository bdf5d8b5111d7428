/* Writing a record's fields as JSON, by its table. */
#include "plate/schema.h"

#include "plate/outline-node.h"

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

/* A group that has nothing to say is left out, its key with it. */
static void write_group(const Field *field, const void *value, JsonText *text)
{
    JsonText before = *text;
    json_text_key(text, field->key);
    json_text_open(text, '{');
    schema_write(field->of, value, text);
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
        return *(char *const *)value != NULL;
    case FIELD_PLACE:
        return field->needed || ((const Place *)value)->x || ((const Place *)value)->y;
    case FIELD_VERTICES:
        return true;
    case FIELD_REFERENCES:
    case FIELD_LIST:
        return ((const List *)value)->count > 0;
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
        json_text_string(text, *(char *const *)value);
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

static void write_unknown(const char *kept_text, JsonText *text)
{
    json_object *kept = json_tokener_parse(kept_text);
    if (!kept)
        return;
    json_object_object_foreach(kept, key, value)
    {
        json_text_foreign_key(text, key);
        json_text_tree(text, value);
    }
    json_object_put(kept);
}

void schema_write(const Schema *schema, const void *object, JsonText *text)
{
    for (size_t i = 0; i < schema->count; i++) {
        const Field *field = &schema->fields[i];
        const void *value = (const char *)object + field->offset;
        if (field->kind == FIELD_GROUP) {
            write_group(field, value, text);
        } else if (field->kind == FIELD_UNKNOWN) {
            if (*(char *const *)value)
                write_unknown(*(char *const *)value, text);
        } else if (says_something(field, value)) {
            json_text_key(text, field->key);
            write_value(field, value, text);
        }
    }
}
