/* clearance.h: clearance holes for screws. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stddef.h>

typedef struct Clearance {
    const char *name;            /* the screw's size: "#8", "1/4", "M6" */
    Length close, normal, loose; /* the least hole (ISO 273: fine, medium, coarse) */
    const char *source;
} Clearance;

size_t clearance_count(void);
const Clearance *clearance_at(size_t index);

/* Finds a row by the screw size: "#8", "1/4", "M6"; capitals and blanks don't matter. NULL with an
 * error that names the nearest ones when there is none. */
const Clearance *clearance_find(const char *name, Error *error);
