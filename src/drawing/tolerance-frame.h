/* tolerance-frame.h: the box that a geometrical tolerance is written in, by ISO 1101 or ASME Y14.5.
 *
 * Both draw it alike: compartments from left to right for the sign, the zone, and the datum
 * letters, two letter heights tall (from memory). The standards differ in the figures, which
 * figure.h writes. */
#pragma once

#include "drawing/drawing.h"

/* Between the compartments of a frame's text: "⌖|⌀0.02|A|B|C". */
#define TOLERANCE_FRAME_SEPARATOR "|"

/* mm, for a lettering height. */
double tolerance_frame_height(double height);
double tolerance_frame_width(const Drawing *drawing, const char *fields, double height);

/* Draws it with its upper left corner at `corner` and returns its box. */
Box tolerance_frame_draw(Drawing *drawing, Point corner, const char *fields, double height);
