/* lettering.h: the one typeface of all drawings, and lines of text set in it.
 *
 * osifont draws the letters of ISO 3098. It is read through a font configuration of our own that
 * holds that font alone, unhinted and with unrounded widths, so that a print is the same whatever
 * fonts a machine has. Signs of dimensioning (sign.h) are strokes within the line. Sizes are given
 * by the height of a capital letter, as ISO 3098 does. Not to be shared between threads.
 */
#pragma once

#include "geometry/error.h"
#include "geometry/point.h"

#include <cairo.h>
#include <stddef.h>
#include <stdint.h>

typedef struct Lettering Lettering;

/* Finds the font in the usual places of the system and the user. On failure NULL and an error that
 * names the package to install. Free with lettering_unref. */
Lettering *lettering_new(Error *error);
/* The same from one font file. */
Lettering *lettering_new_from_file(const char *file, Error *error);
Lettering *lettering_ref(Lettering *lettering);
void lettering_unref(Lettering *lettering);

typedef struct TextExtent {
    double width;           /* mm along the baseline */
    double above;           /* mm, never less than a capital letter */
    double below;           /* mm below the baseline, 0 or more */
    size_t unknown_count;   /* characters there is no glyph for; they are left out */
    uint32_t first_unknown; /* the first of them, or 0 */
} TextExtent;

/* Takes UTF-8; control characters and bad bytes count as unknown. */
TextExtent lettering_extent(Lettering *lettering, const char *text, double height);

/* Draws the text in the context's colour from its origin to the right, Y down as cairo has it. */
void lettering_show(Lettering *lettering, cairo_t *cairo, const char *text, double height);

/* One piece of a line of text for who draws it by itself: either a glyph or a sign. */
typedef struct TextPiece {
    double x, y;    /* where it stands, in letter heights, Y up */
    unsigned glyph; /* for lettering_glyph, where sign is NULL */
    const struct Sign *sign;
} TextPiece;

/* The pieces of a line; owned by the lettering, valid until its next call. */
const TextPiece *lettering_pieces(Lettering *lettering, const char *text, size_t *count);

/* Receives an outline of quadratic and cubic curves in letter heights, Y up. */
typedef struct GlyphPen {
    void (*move)(void *user, Point to);
    void (*line)(void *user, Point to);
    void (*quadratic)(void *user, Point control, Point to);
    void (*cubic)(void *user, Point first, Point second, Point to);
    void (*close)(void *user);
} GlyphPen;

void lettering_glyph(Lettering *lettering, unsigned glyph, const GlyphPen *pen, void *user);
