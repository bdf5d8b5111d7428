/* deviation-picture.h: how far each measured hole is from where it is drawn, as arrows. */
#pragma once

#include "drawing/deviation-sheet.h"

/* How many times its size a deviation is drawn on paper, so that the greatest of those that are no
 * outliers takes about a centimetre: 1, 2 or 5 times a power of ten. */
double deviation_picture_times(const Deviations *deviations);

/* Draws the face in `room` with an arrow from each hole that was measured, by least squares, and
 * round it its zone of tolerance at the same enlargement where that is not large. Arrows of
 * outliers are cut off and dashed. Returns the scale of the plate. */
double deviation_picture_draw(Drawing *drawing, const DrawingSource *source,
                              const Deviations *deviations, Box room);
