/* clip.h: a part of a drawing, cut out along a rectangle. */
#pragma once

#include "drawing/drawing.h"

/* Adds to `to` what of a sheet of `from` lies in `area`, moved by `shift`. Strokes are cut off at
 * the border, arcs staying arcs; texts and fills that lie across it are left out. The two drawings
 * must be different. */
void clip_copy(Drawing *to, const Drawing *from, const Sheet *sheet, Box area, Point shift);
