/* play-cairo.h: draws marks with cairo, for the screen, PDF and PNG alike. */
#pragma once

#include "drawing/drawing.h"

#include <cairo.h>

typedef struct Colour {
    double red, green, blue, alpha; /* 0 to 1 */
} Colour;

/* How marks look. Prints are black on nothing. */
typedef struct PlayStyle {
    /* The colour of a mark; an alpha of 0 leaves it out. */
    Colour (*colour)(const Mark *mark, void *user);
    void *user;
    double width_factor; /* widths of lines times this; 1 on paper */
} PlayStyle;

/* Black, as it is printed. */
extern const PlayStyle play_style_print;

/* Draws a sheet in a context whose unit is the millimetre, X to the right and Y down, with the
 * sheet's upper left corner at its origin. The context's state is kept. */
void play_cairo_sheet(const Drawing *drawing, size_t sheet, const PlayStyle *style, cairo_t *cairo);

/* The same for `count` marks from `first`, as those of one feature, on a sheet of `sheet_height`.
 */
void play_cairo_marks(const Drawing *drawing, size_t first, size_t count, double sheet_height,
                      const PlayStyle *style, cairo_t *cairo);
