/* coloured-svg.h: a drawing's first sheet as SVG in the colours of the layout, on white ground, for
 * pages that are read on the screen. */
#pragma once

#include "drawing/drawing.h"

bool coloured_svg_write(const Drawing *drawing, const char *file, Error *error);
