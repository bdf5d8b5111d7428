/* svg.h: a drawing as SVG files, one for each sheet.
 *
 * Millimetres throughout; arcs stay arcs and coordinates are written to the last place of a double.
 * Strokes stand in a group for each kind of line, marks of a feature in a group with the id
 * "visible-12" (kind and feature), letters are outlines, and each line of text has its words as the
 * group's title.
 */
#pragma once

#include "drawing/drawing.h"

#include <glib.h>

/* One sheet's file; free with g_string_free. */
GString *svg_text(const Drawing *drawing, size_t sheet);

/* Writes the first sheet to `file`, and the others beside it: NAME.svg, NAME-2.svg, NAME-3.svg and
 * so on */
bool svg_write(const Drawing *drawing, const char *file, Error *error);

/* The name of a sheet's file (0 is `file` itself); free with g_free. */
char *svg_sheet_file(const char *file, size_t sheet);

/* Appends a number with the fewest decimals (up to 17 digits) that give the same double back,
 * whatever the locale; -0 is written 0. */
void svg_number(GString *text, double number);
