/* paragraph.h: words broken into lines of a given width. */
#pragma once

#include "drawing/drawing.h"

/* The distance of two baselines, in letter heights; signs reach 1.5 heights. */
#define PARAGRAPH_PITCH 1.7

/* How many lines `text` takes at `width` mm; '\n' begins a new one. A word wider than a line is
 * broken where it is full. At least 1. */
size_t paragraph_lines(const Drawing *drawing, const char *text, double width, double height);

/* The width of the longest line when only '\n' breaks it, mm. */
double paragraph_width(const Drawing *drawing, const char *text, double height);

/* Draws the lines downwards, the first one's capitals with their tops at `top`; `along` says where
 * in the width from `left` they stand. Returns how many lines there were. */
size_t paragraph_draw(Drawing *drawing, Point top_left, double width, double height,
                      TextAlong along, const char *text);
