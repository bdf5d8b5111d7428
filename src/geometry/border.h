/* border.h: the border of a shape, as sides on the face. Private to geometry. */
#pragma once

#include "geometry/shape-private.h"

/* Calls `use` with each line and arc of the shape's border that may meet `box` (on the face), until
 * it says false; returns what it said last, or true. The sides run counter-clockwise round the
 * shape, or all clockwise for an outline that is turned over; a circle comes as two halves. */
bool border_each_side(const Shape *shape, Box box, bool (*use)(const Side *side, void *data),
                      void *data);
