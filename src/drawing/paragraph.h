/* paragraph.h: words broken into lines of a given width. */
#pragma once

#include "drawing/drawing.h"

/* The distance of two baselines, in letter heights; signs reach 1.5 heights. */
#define PARAGRAPH_PITCH 1.7

/* How many lines `text` takes at `width` mm, at least 1 and no more than `most`; '\n' begins a new
 * one. A word wider than a line is broken where it is full. */
size_t paragraph_lines(const Drawing *drawing, const char *text, double width, double height,
                       size_t most);

/* The width of the longest line when only '\n' breaks it, mm. */
double paragraph_width(const Drawing *drawing, const char *text, double height);

/* Draws the lines downwards, the first one's capitals with their tops at `top_left`; `along` says
 * where in the width they stand. The last of `most` lines ends with "..." where there would be
 * more. Returns how many lines were drawn. */
size_t paragraph_draw(Drawing *drawing, Point top_left, double width, double height,
                      TextAlong along, const char *text, size_t most);
