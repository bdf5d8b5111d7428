#include "editor/record-list.h"

#include <string.h>

const Field *record_list_field(RecordKind kind, size_t offset)
{
    const Schema *schema = record_schema(kind);
    for (size_t i = 0; i < schema->count; i++)
        if (schema->fields[i].offset == offset &&
            (schema->fields[i].kind == FIELD_LIST || schema->fields[i].kind == FIELD_REFERENCES))
            return &schema->fields[i];
    return NULL;
}

List *record_list(Record *record, size_t offset)
{
    return (List *)(void *)((char *)record_body(record) + offset);
}

static size_t item_size(const Field *field)
{
    return field->kind == FIELD_LIST ? field->of->size : sizeof(FeatureId);
}

void record_list_remove(Record *record, size_t offset, uint32_t index)
{
    const Field *field = record_list_field(record->kind, offset);
    List *list = record_list(record, offset);
    if (!field || index >= list->count)
        return;
    size_t size = item_size(field);
    char *item = (char *)list->items + index * size;
    if (field->kind == FIELD_LIST)
        schema_clear(field->of, item);
    memmove(item, item + size, (list->count - index - 1) * size);
    if (--list->count == 0) {
        g_free(list->items);
        list->items = NULL;
    }
}

void record_list_shift(Record *record, size_t offset, uint32_t index, int by)
{
    const Field *field = record_list_field(record->kind, offset);
    List *list = record_list(record, offset);
    uint32_t to = index + (uint32_t)by;
    if (!field || index >= list->count || to >= list->count)
        return;
    size_t size = item_size(field);
    char *items = list->items, *kept = g_malloc(size);
    memcpy(kept, items + index * size, size);
    memcpy(items + index * size, items + to * size, size);
    memcpy(items + to * size, kept, size);
    g_free(kept);
}
