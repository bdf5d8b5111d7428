/* history.h: undo and redo of any depth. */
#pragma once

#include "plate/edit.h"

typedef struct History History;

History *history_new(void);
void history_free(History *history);

/* Remembers an edit that was carried out, by its inverse (taken over), and forgets what could have
 * been redone. */
void history_add(History *history, Edit *inverse);

bool history_can_undo(const History *history);
bool history_can_redo(const History *history);
/* The name of what would be undone or redone; NULL when there is nothing or it has no name. */
const char *history_undo_name(const History *history);
const char *history_redo_name(const History *history);

/* The edit to carry out next to undo or redo; NULL when there is none. Owned by the history. */
const Edit *history_undo_edit(const History *history);
const Edit *history_redo_edit(const History *history);
/* Says that it was carried out, and takes over its inverse. */
void history_undone(History *history, Edit *inverse);
void history_redone(History *history, Edit *inverse);

/* How many edits lie behind; the same number means the same state of the plate. */
uint32_t history_depth(const History *history);
/* Marks the present state as the one on the disk. */
void history_set_saved(History *history);
bool history_is_saved(const History *history);
