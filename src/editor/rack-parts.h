/* rack-parts.h: the parts kept in a folder, read in a thread of its own and again whenever the
 * folder has changed. */
#pragma once

#include "plate/record.h"

#include <gio/gio.h>

/* More files than this of one folder are not read. */
#define RACK_PARTS_MOST 1000

typedef struct RackPart {
    char *file;     /* its name in the folder */
    Record *record; /* NULL: it can't be read */
    char *trouble;  /* why not, with the place in the file; NULL for one that was read */
} RackPart;

typedef struct RackParts RackParts;

/* `parts` are RackPart by the files' names; they are the receiver's to unref. */
typedef void (*RackPartsRead)(GPtrArray *parts, gpointer data);

/* Begins to read the folder once nothing else is to be done, and tells of it in the main thread: a
 * first time, and after each change of the folder. One that can't be read has no parts. */
RackParts *rack_parts_watch(const char *folder, RackPartsRead read, gpointer data);
/* Nothing more is told after this. NULL is let through. */
void rack_parts_end(RackParts *parts);
