/* sign.h: the sign of a finding: an octagon for a stop, a square on its point for a caution, a
 * circle for a note, each with the finding's number in the list. Shape says it without colour. */
#pragma once

#include "editor/palette.h"

#define SIGN_RADIUS 10.0 /* pixels */

/* Draws it about a place, in pixels. `number` is 0 for none; `lettering` may be NULL then. */
void sign_draw(cairo_t *cairo, Lettering *lettering, Point at, FindingLevel level, int number,
               gboolean dark, gboolean pointed_out);
