/* screw.h: screws by the shape of their head. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stddef.h>

typedef enum ScrewKind {
    SCREW_SOCKET_HEAD,
    SCREW_FLAT_HEAD,
    SCREW_BUTTON_HEAD,
} ScrewKind;

typedef struct Screw {
    const char *name; /* "socket head 1/4", "flat head M6" */
    ScrewKind kind;
    const char *size;        /* "#8", "1/4", "M6", as Thread's */
    Length major;            /* the thread's basic major diameter */
    Length head_diameter;    /* greatest; of a flat head the sharp one */
    Length head_height;      /* greatest */
    Length knurled_diameter; /* greatest, where the head may be knurled, or 0 */
    double head_angle;       /* degrees of a flat head's cone; 0 for the others */
    const char *source;
} Screw;

size_t screw_count(void);
const Screw *screw_at(size_t index);

/* Finds a row by "socket head 1/4", "flat head M6"; capitals and blanks don't matter. NULL with an
 * error that names the nearest ones when there is none. */
const Screw *screw_find(const char *name, Error *error);

/* The screw of a kind and size ("1/4", "#8", "M6"), or NULL with an error that says so. */
const Screw *screw_of(ScrewKind kind, const char *size, Error *error);
