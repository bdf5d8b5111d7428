/* path.h: a short way round a number of places. */
#pragma once

#include "geometry/point.h"

#include <stddef.h>
#include <stdint.h>

/* Fills `order` with the indices of `points` so that the way from `start` through all of them, not
 * back again, is short: nearest neighbour, then turning stretches round (2-opt) and moving short
 * stretches elsewhere (or-opt) until nothing gets shorter; more than 3,000 places are taken to and
 * fro in strips. The same for the same points always; not
 * always the shortest. Returns its length in mm. */
double path_order(Point start, const Point *points, size_t count, uint32_t *order);
/* mm, in the given order. */
double path_length(Point start, const Point *points, const uint32_t *order, size_t count);
