/* section.h: where shapes are cut by a line and by each other, and their borders as outlines. */
#pragma once

#include "geometry/shape.h"

#include <stddef.h>

/* A part of a line, by its ways from the line's start, mm. */
typedef struct Stretch {
    double start, end;
} Stretch;

/* The stretches of the line from `from` to `to` that lie in the shape, in order. Fills up to `room`
 * of them and returns how many there are. A line that only touches the shape has none. Never
 * allocates. */
size_t shape_section(const Shape *shape, Point from, Point to, Stretch *stretches, size_t room);

/* The places where the borders of two shapes cross or touch; of borders that run along each other,
 * the ends of what they share. Fills up to `room` of them, in no particular order, and returns how
 * many there are (where that is more than `room`, some may be counted twice). Never allocates. */
size_t shape_crossings(const Shape *a, const Shape *b, Point *places, size_t room);

/* The shape on the face as an outline with no growth, arcs as arcs. NULL with a named error when
 * there is no memory, the shape has no area, or its border touches itself. Free with
 * outline_unref. */
Outline *shape_to_outline(const Shape *shape, Error *error);
