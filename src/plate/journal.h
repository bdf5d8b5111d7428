/* journal.h: the edits since the last save, kept on the disk while a plate is open, so that a crash
 * loses at most the one under way. One line an edit, each written and synced before the next. */
#pragma once

#include "plate/plate.h"
#include "plate/save.h"

/* No longer one is read. */
#define JOURNAL_BYTES_MOST ((size_t)512 << 20)

typedef struct Journal Journal;

/* Where the journals lie: a folder of the user's state. The caller frees it. */
char *journal_folder(void);

/* Begins a journal in `folder` for the plate file `path` (NULL for a plate never saved); `plate` is
 * what is worked on from here, `unsaved` when that has changes which are in no file. Replaces an
 * older one for the same path once the new one is whole on the disk. NULL with an error where it
 * can't be written: editing can go on without. */
Journal *journal_begin(const char *folder, const char *path, const Plate *plate, bool unsaved,
                       Error *error);
/* Adds an edit that was carried out. False with an error when the disk refuses. */
bool journal_add(Journal *journal, const Edit *edit, Error *error);
/* Ends it and takes the file away: all is saved, or given up on purpose. */
void journal_end(Journal *journal);
/* Lets go of it and leaves the file, as a crash would. */
void journal_leave(Journal *journal);

/* What a journal left behind holds. */
typedef struct JournalFound {
    char *file;     /* the journal's own */
    char *path;     /* the plate's, or NULL */
    uint32_t edits; /* whole ones */
    bool unsaved;   /* what it began with was in no file either */
} JournalFound;

void journal_found_clear(JournalFound *found);

/* Journals in `folder` that have changes to bring back and that no running program holds. An array
 * of JournalFound; unref it. */
GArray *journal_find(const char *folder);

/* The plate that the journal `file` tells of: the one it began with and its whole edits carried
 * out. An edit cut off in the middle is left out. NULL with an error. */
Plate *journal_recover(const char *file, Error *error);
/* Takes a journal away unread. */
void journal_discard(const char *file);
