/* insert.h: thread inserts and the larger thread they are screwed in. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stddef.h>

typedef enum InsertKind {
    INSERT_COIL,
    INSERT_SOLID,
} InsertKind;

typedef struct Insert {
    const char *name; /* "coil 8-32" */
    InsertKind kind;
    const char *thread; /* the thread it carries: a name that thread_find knows */
    Length tap_major;   /* basic major diameter of the thread tapped for it */
    Length hole_least;  /* least minor diameter of that thread */
    const char *drill;  /* a name that drill_find knows */
    const char *source;
} Insert;

size_t insert_count(void);
const Insert *insert_at(size_t index);

/* Finds a row by "coil 8-32"; capitals and blanks don't matter. NULL with an error that
 * names the nearest ones when there is none. */
const Insert *insert_find(const char *name, Error *error);
