/* shoulder-screw.h: shoulder screws: what locates, what bears and what threads in. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stddef.h>

typedef struct ShoulderScrew {
    const char *name; /* by its shoulder: "1/4", "8mm" */
    Length nominal;
    Length shoulder_greatest, shoulder_least; /* limits of the ground shoulder */
    const char *thread;                       /* a name that thread_find knows */
    Length head_diameter, head_height;        /* greatest */
    Length head_neck_diameter, head_neck;     /* under the head: least diameter, width; the shoulder
                                                 does not guide there */
    Length thread_neck_diameter,
        thread_neck;      /* before the thread: least diameter, greatest width */
    Length thread_length; /* from the shoulder's end, the neck included */
    const char *source;
} ShoulderScrew;

size_t shoulder_screw_count(void);
const ShoulderScrew *shoulder_screw_at(size_t index);

/* Finds a row by its shoulder: "1/4", "8mm"; capitals and blanks don't matter. NULL with an error
 * that names the nearest ones when there is none. */
const ShoulderScrew *shoulder_screw_find(const char *name, Error *error);
