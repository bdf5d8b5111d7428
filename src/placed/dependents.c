#include "placed/dependents.h"

struct Dependents {
    GHashTable *lists; /* FeatureId -> GArray of FeatureId */
};

Dependents *dependents_new(void)
{
    Dependents *dependents = g_new(Dependents, 1);
    dependents->lists = g_hash_table_new_full(NULL, NULL, NULL, (GDestroyNotify)g_array_unref);
    return dependents;
}

void dependents_free(Dependents *dependents)
{
    g_hash_table_unref(dependents->lists);
    g_free(dependents);
}

static bool has_place(const Record *record)
{
    return record_face(record) != ID_NONE || record->kind == RECORD_FITTING;
}

typedef struct Entry {
    Dependents *dependents;
    FeatureId from;
} Entry;

static bool enter(FeatureId id, const Field *field, void *data)
{
    const Entry *entry = data;
    GArray *list = g_hash_table_lookup(entry->dependents->lists, GUINT_TO_POINTER(id));
    if (!list) {
        list = g_array_new(FALSE, FALSE, sizeof(FeatureId));
        g_hash_table_insert(entry->dependents->lists, GUINT_TO_POINTER(id), list);
    }
    g_array_append_val(list, entry->from);
    return true;
}

static bool strike(FeatureId id, const Field *field, void *data)
{
    const Entry *entry = data;
    GArray *list = g_hash_table_lookup(entry->dependents->lists, GUINT_TO_POINTER(id));
    for (guint i = 0; list && i < list->len; i++) {
        if (g_array_index(list, FeatureId, i) == entry->from) {
            g_array_remove_index_fast(list, i);
            break;
        }
    }
    return true;
}

void dependents_add(Dependents *dependents, const Record *record)
{
    Entry entry = {dependents, record->id};
    if (has_place(record))
        schema_each_reference(record_schema(record->kind), record_body_const(record), enter,
                              &entry);
}

void dependents_remove(Dependents *dependents, const Record *record)
{
    Entry entry = {dependents, record->id};
    if (has_place(record))
        schema_each_reference(record_schema(record->kind), record_body_const(record), strike,
                              &entry);
}

const FeatureId *dependents_of(const Dependents *dependents, FeatureId id, uint32_t *count)
{
    GArray *list = g_hash_table_lookup(dependents->lists, GUINT_TO_POINTER(id));
    *count = list ? list->len : 0;
    return list ? (const FeatureId *)list->data : NULL;
}
