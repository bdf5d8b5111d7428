/* grown.h: the border of an outline grown by a clearance. Private to geometry. */
#pragma once

#include "geometry/outline-private.h"

/* mm: a growth less than this leaves the sides as they are. */
#define GROWTH_LEAST 1e-6

typedef struct Grown {
    const Outline *outline;
    double growth;
} Grown;

/* The elements that a side brings, in the outline's coordinates: the side moved out, and the arc
 * round the corner at its end. Not all of an element is border. Returns their number. */
int grown_elements(const Grown *grown, size_t index, Side elements[2]);

/* True for a place of an element that is on the grown border, not inside the grown outline. */
bool grown_is_border(const Grown *grown, Point p);

/* Calls `use` with each stretch of an element that is border, until it says false; returns what it
 * said last, or true. */
bool grown_each_stretch(const Grown *grown, const Side *element,
                        bool (*use)(const Side *stretch, void *data), void *data);
