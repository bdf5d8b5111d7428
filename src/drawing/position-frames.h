/* position-frames.h: the tolerance frames of locating holes, at leaders in the plan. */
#pragma once

#include "drawing/hole-table.h"

/* How many kinds of hole have a frame. */
size_t position_frames_count(const HoleTable *table);

/* What a frame takes in height where they stand one above the other, mm. */
#define POSITION_FRAME_PITCH 9.0

/* One frame for each kind of hole that has one, at that of its holes where it disturbs least, with
 * the count and the marks of all before it ("3X C1-C3"; without the marks where there is less
 * room), as ISO 1101 and ASME Y14.5 both allow
 * (from memory). What has been drawn on the sheet so far is in the way, and is crossed by no
 * leader; a frame that has no room inside `area` is left out, as the summary of holes has it too.
 * Returns how many were drawn. */
size_t position_frames_draw(Drawing *drawing, const DrawingSource *source, ViewMap map,
                            const HoleTable *table, Box area);
