/* scale-bar.h: a ruler on the sheet, by which a print or a copy of it can be measured. */
#pragma once

#include "drawing/drawing.h"

/* The height it takes with its figures, mm. */
#define SCALE_BAR_HEIGHT 9.0

/* Draws a bar from `corner` (upper left) to the right, of a round length of the plate that takes
 * no more than `most` mm of paper, at `scale` (mm of paper for one mm of plate), figures in inches
 * or mm. Returns its box. */
Box scale_bar_draw(Drawing *drawing, Point corner, double most, double scale, bool inches);
