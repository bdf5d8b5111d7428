/* clamp.h: low edge clamps, which grip the side of a blank from a slot beside it. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stddef.h>

typedef struct Clamp {
    const char *name; /* "edge clamp 8 mm" */
    Length body_length, body_width, body_height;
    Length slot_width, slot_depth;        /* the slot it slides in */
    Length travel_least, travel_greatest; /* how far its face reaches from where it is fitted */
    double force;                         /* N against the blank, an estimate */
    const char *screw;                    /* a name that thread_find knows */
    const char *source;
} Clamp;

size_t clamp_count(void);
const Clamp *clamp_at(size_t index);

/* Finds a row by "edge clamp 8 mm"; capitals and blanks don't matter. NULL with an error that
 * names the nearest ones when there is none. */
const Clamp *clamp_find(const char *name, Error *error);
