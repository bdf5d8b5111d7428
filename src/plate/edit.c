#include "plate/edit.h"

void edit_add(Edit *edit, Record *before, Record *after)
{
    FeatureId id = after ? after->id : before->id;
    for (uint32_t i = 0; i < edit->count; i++) {
        RecordChange *change = &edit->changes[i];
        if (change->id == id) {
            record_unref(change->after);
            change->after = after;
            record_unref(before);
            return;
        }
    }
    if (edit->count == edit->room) {
        edit->room = edit->room ? edit->room * 2 : 4;
        edit->changes = g_renew(RecordChange, edit->changes, edit->room);
    }
    edit->changes[edit->count++] = (RecordChange){id, before, after};
}

void edit_set_name(Edit *edit, const char *name)
{
    g_free(edit->name);
    edit->name = g_strdup(name);
}

Edit edit_copy(const Edit *edit)
{
    Edit copy = {g_strdup(edit->name), edit->count, edit->count,
                 g_memdup2(edit->changes, edit->count * sizeof(RecordChange))};
    for (uint32_t i = 0; i < copy.count; i++) {
        record_ref(copy.changes[i].before);
        record_ref(copy.changes[i].after);
    }
    return copy;
}

void edit_clear(Edit *edit)
{
    for (uint32_t i = 0; i < edit->count; i++) {
        record_unref(edit->changes[i].before);
        record_unref(edit->changes[i].after);
    }
    g_free(edit->changes);
    g_free(edit->name);
    *edit = EDIT_EMPTY;
}

void change_set_add(ChangeSet *set, Change change)
{
    if (set->count == set->room) {
        set->room = set->room ? set->room * 2 : 16;
        set->items = g_renew(Change, set->items, set->room);
    }
    set->items[set->count++] = change;
}

void change_set_clear(ChangeSet *set)
{
    g_free(set->items);
    *set = CHANGE_SET_EMPTY;
}
