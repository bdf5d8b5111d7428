#include "plate/history.h"

struct History {
    GArray *undo, *redo; /* Edit */
    int64_t saved;       /* the depth that is on the disk; -1 once it can't be reached */
};

static void clear_edit(void *edit)
{
    edit_clear(edit);
}

static GArray *edits_new(void)
{
    GArray *edits = g_array_new(FALSE, FALSE, sizeof(Edit));
    g_array_set_clear_func(edits, clear_edit);
    return edits;
}

History *history_new(void)
{
    History *history = g_new0(History, 1);
    history->undo = edits_new();
    history->redo = edits_new();
    return history;
}

void history_free(History *history)
{
    if (!history)
        return;
    g_array_unref(history->undo);
    g_array_unref(history->redo);
    g_free(history);
}

static void push(GArray *edits, Edit *edit)
{
    g_array_append_val(edits, *edit);
    *edit = EDIT_EMPTY;
}

static const Edit *last(const GArray *edits)
{
    return edits->len ? &g_array_index(edits, Edit, edits->len - 1) : NULL;
}

void history_add(History *history, Edit *inverse)
{
    if (history->saved > history->undo->len)
        history->saved = -1;
    g_array_set_size(history->redo, 0);
    push(history->undo, inverse);
}

bool history_can_undo(const History *history)
{
    return history->undo->len > 0;
}

bool history_can_redo(const History *history)
{
    return history->redo->len > 0;
}

const Edit *history_undo_edit(const History *history)
{
    return last(history->undo);
}

const Edit *history_redo_edit(const History *history)
{
    return last(history->redo);
}

const char *history_undo_name(const History *history)
{
    const Edit *edit = last(history->undo);
    return edit ? edit->name : NULL;
}

const char *history_redo_name(const History *history)
{
    const Edit *edit = last(history->redo);
    return edit ? edit->name : NULL;
}

void history_undone(History *history, Edit *inverse)
{
    g_array_set_size(history->undo, history->undo->len - 1);
    push(history->redo, inverse);
}

void history_redone(History *history, Edit *inverse)
{
    g_array_set_size(history->redo, history->redo->len - 1);
    push(history->undo, inverse);
}

uint32_t history_depth(const History *history)
{
    return history->undo->len;
}

void history_set_saved(History *history)
{
    history->saved = history->undo->len;
}

bool history_is_saved(const History *history)
{
    return history->saved == (int64_t)history->undo->len;
}
