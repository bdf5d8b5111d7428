/* caution.h: what every print has to say to the person at the machine. */
#pragma once

#include "drawing/drawing.h"

extern const char caution_text[];

/* The height it takes at `width` mm, its frame included. */
double caution_height(const Drawing *drawing, double width);

/* Draws it in a frame with its upper left corner at `corner` and returns its box. */
Box caution_draw(Drawing *drawing, Point corner, double width);
