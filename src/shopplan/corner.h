/* corner.h: the largest cutter that reaches into a recess's corners. */
#pragma once

#include "geometry/shape.h"

/* Turns of less than this many degrees from one side of an outline to the next count as smooth: a
 * 20 mm cutter leaves 1.5 um there, (R (1 / cos(turn / 2) - 1)). */
#define SMOOTH_TURN 2.0

/* mm: the diameter of the largest cutter that leaves nothing standing in the inside corners of a
 * recess of this shape; 0 where there is a square one. Necks between two sides are not looked for.
 */
double corner_cutter(const Shape *shape);
