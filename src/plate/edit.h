/* edit.h: a change to a plate, as records before and after; and the list of what a change touched.
 */
#pragma once

#include "plate/record.h"

/* One record's change. No `before`: it is new. No `after`: it is taken away. */
typedef struct RecordChange {
    FeatureId id;
    Record *before, *after;
} RecordChange;

typedef struct Edit {
    char *name; /* what it did, for the undo list; may be NULL */
    uint32_t count, room;
    RecordChange *changes;
} Edit;

#define EDIT_EMPTY ((Edit){NULL, 0, 0, NULL})

/* Adds a change and takes over the references to both records (either may be NULL, not both). A
 * second change of the same record in one edit replaces what the first one left. */
void edit_add(Edit *edit, Record *before, Record *after);
void edit_set_name(Edit *edit, const char *name);
/* The edit with its own references to the same records. */
Edit edit_copy(const Edit *edit);
/* Frees what it holds and leaves it empty. */
void edit_clear(Edit *edit);

/* What an edit touched, in the order of the edit. */
typedef struct Change {
    FeatureId id;
    RecordKind kind;
    bool was, is; /* there before; there now */
} Change;

typedef struct ChangeSet {
    uint32_t count, room;
    Change *items;
} ChangeSet;

#define CHANGE_SET_EMPTY ((ChangeSet){0, 0, NULL})

void change_set_add(ChangeSet *set, Change change);
void change_set_clear(ChangeSet *set);
