/* dowel.h: dowel pins, full and relieved, with the holes they are fitted in. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stddef.h>

typedef struct Dowel {
    const char *name; /* "1/4", "6mm", "relieved 1/4" */
    Length nominal;
    Length greatest, least;           /* limits of the pin */
    Length hole_greatest, hole_least; /* limits of the hole it is fitted in */
    Length land;                      /* width of a relieved pin's land; 0 for a full pin */
    const char *source;
} Dowel;

size_t dowel_count(void);
const Dowel *dowel_at(size_t index);

/* Finds a row by "1/4", "6mm", "relieved 1/4"; capitals and blanks don't matter. NULL with an error
 * that names the nearest ones when there is none. */
const Dowel *dowel_find(const char *name, Error *error);
