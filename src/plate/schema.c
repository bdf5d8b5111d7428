#include "plate/schema.h"

#include "plate/outline-node.h"

#include <string.h>

static void *at(void *object, const Field *field)
{
    return (char *)object + field->offset;
}

static const void *at_const(const void *object, const Field *field)
{
    return (const char *)object + field->offset;
}

/* The bytes of one item of a field that is a list, or 0 for a field that is none. */
static size_t item_size(const Field *field)
{
    switch (field->kind) {
    case FIELD_REFERENCES:
        return sizeof(FeatureId);
    case FIELD_VERTICES:
        return sizeof(OutlineNode);
    case FIELD_LIST:
        return field->of->size;
    default:
        return 0;
    }
}

void *list_add(List *list, size_t size)
{
    list->items = g_realloc_n(list->items, list->count + 1, size);
    void *item = (char *)list->items + list->count * size;
    memset(item, 0, size);
    list->count++;
    return item;
}

static void copy_list(const Field *field, List *to, const List *from)
{
    size_t size = item_size(field);
    to->items = from->count ? g_memdup2(from->items, from->count * size) : NULL;
    for (uint32_t i = 0; field->kind == FIELD_LIST && i < from->count; i++)
        schema_copy(field->of, (char *)to->items + i * size, (const char *)from->items + i * size);
}

void schema_copy(const Schema *schema, void *to, const void *from)
{
    memcpy(to, from, schema->size);
    for (size_t i = 0; i < schema->count; i++) {
        const Field *field = &schema->fields[i];
        if (field->kind == FIELD_TEXT || field->kind == FIELD_UNKNOWN)
            *(char **)at(to, field) = g_strdup(*(char *const *)at_const(from, field));
        else if (field->kind == FIELD_GROUP)
            schema_copy(field->of, at(to, field), at_const(from, field));
        else if (item_size(field))
            copy_list(field, at(to, field), at_const(from, field));
    }
}

static void clear_list(const Field *field, List *list)
{
    for (uint32_t i = 0; field->kind == FIELD_LIST && i < list->count; i++)
        schema_clear(field->of, (char *)list->items + i * field->of->size);
    g_free(list->items);
}

void schema_clear(const Schema *schema, void *object)
{
    for (size_t i = 0; i < schema->count; i++) {
        const Field *field = &schema->fields[i];
        if (field->kind == FIELD_TEXT || field->kind == FIELD_UNKNOWN)
            g_free(*(char **)at(object, field));
        else if (field->kind == FIELD_GROUP)
            schema_clear(field->of, at(object, field));
        else if (item_size(field))
            clear_list(field, at(object, field));
    }
    memset(object, 0, schema->size);
}

static bool lists_equal(const Field *field, const List *a, const List *b)
{
    size_t size = item_size(field);
    if (a->count != b->count)
        return false;
    if (field->kind != FIELD_LIST)
        return !a->count || memcmp(a->items, b->items, a->count * size) == 0;
    for (uint32_t i = 0; i < a->count; i++)
        if (!schema_equal(field->of, (const char *)a->items + i * size,
                          (const char *)b->items + i * size))
            return false;
    return true;
}

static bool fields_equal(const Field *field, const void *a, const void *b)
{
    switch (field->kind) {
    case FIELD_REFERENCE:
        return *(const FeatureId *)a == *(const FeatureId *)b;
    case FIELD_LENGTH:
    case FIELD_ANGLE:
    case FIELD_NUMBER:
        return *(const int64_t *)a == *(const int64_t *)b;
    case FIELD_COUNT:
        return *(const int32_t *)a == *(const int32_t *)b;
    case FIELD_BOOL:
        return *(const bool *)a == *(const bool *)b;
    case FIELD_CHOICE:
        return *(const int *)a == *(const int *)b;
    case FIELD_TEXT:
    case FIELD_UNKNOWN:
        return g_strcmp0(*(char *const *)a, *(char *const *)b) == 0;
    case FIELD_PLACE:
        return ((const Place *)a)->x == ((const Place *)b)->x &&
               ((const Place *)a)->y == ((const Place *)b)->y;
    case FIELD_GROUP:
        return schema_equal(field->of, a, b);
    case FIELD_REFERENCES:
    case FIELD_VERTICES:
    case FIELD_LIST:
        return lists_equal(field, a, b);
    }
    return false;
}

bool schema_equal(const Schema *schema, const void *a, const void *b)
{
    for (size_t i = 0; i < schema->count; i++)
        if (!fields_equal(&schema->fields[i], at_const(a, &schema->fields[i]),
                          at_const(b, &schema->fields[i])))
            return false;
    return true;
}

typedef bool (*ReferenceVisit)(FeatureId id, const Field *field, void *data);

static bool visit_list(const Field *field, const List *list, ReferenceVisit visit, void *data)
{
    for (uint32_t i = 0; i < list->count; i++) {
        if (field->kind == FIELD_REFERENCES) {
            if (!visit(*LIST_AT(list, FeatureId, i), field, data))
                return false;
        } else if (!schema_each_reference(
                       field->of, (const char *)list->items + i * field->of->size, visit, data)) {
            return false;
        }
    }
    return true;
}

bool schema_each_reference(const Schema *schema, const void *object, ReferenceVisit visit,
                           void *data)
{
    for (size_t i = 0; i < schema->count; i++) {
        const Field *field = &schema->fields[i];
        const void *value = at_const(object, field);
        bool on = true;
        if (field->kind == FIELD_REFERENCE &&
            (field->needed || *(const FeatureId *)value != ID_NONE))
            on = visit(*(const FeatureId *)value, field, data);
        else if (field->kind == FIELD_GROUP)
            on = schema_each_reference(field->of, value, visit, data);
        else if (field->kind == FIELD_REFERENCES || field->kind == FIELD_LIST)
            on = visit_list(field, value, visit, data);
        if (!on)
            return false;
    }
    return true;
}

static bool drop_from_list(List *list, FeatureId id)
{
    uint32_t kept = 0;
    for (uint32_t i = 0; i < list->count; i++) {
        FeatureId one = *LIST_AT(list, FeatureId, i);
        if (one != id)
            *LIST_AT(list, FeatureId, kept++) = one;
    }
    bool dropped = kept < list->count;
    list->count = kept;
    return dropped;
}

bool schema_drop_weak(const Schema *schema, void *object, FeatureId id)
{
    bool dropped = false;
    for (size_t i = 0; i < schema->count; i++) {
        const Field *field = &schema->fields[i];
        void *value = at(object, field);
        if (field->kind == FIELD_GROUP) {
            dropped = schema_drop_weak(field->of, value, id) || dropped;
        } else if (field->weak && field->kind == FIELD_REFERENCES) {
            dropped = drop_from_list(value, id) || dropped;
        } else if (field->weak && field->kind == FIELD_REFERENCE && *(FeatureId *)value == id) {
            *(FeatureId *)value = ID_NONE;
            dropped = true;
        }
    }
    return dropped;
}
