/* elevation.h: the view from the front, on the plan's X. */
#pragma once

#include "drawing/view.h"

/* Draws the stock from the front with everything below its top in hidden lines, and the axes of its
 * holes; where those would hide each other they are left out. The map takes X along the front and Y
 * for the height over the top. Inclined faces are shown by their borders; what lies on them is left
 * to their own views. */
void elevation_draw(Drawing *drawing, const DrawingSource *source, ViewMap map);
