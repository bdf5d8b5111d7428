/* outline-svg.h: a part's outline from an SVG drawing.
 *
 * Understood: path with all its commands, rect, circle, ellipse, line, polygon, polyline; g, a,
 * switch, svg and symbol, use; transforms; viewBox, preserveAspectRatio, width and height in mm,
 * cm, Q, in, pt, pc, px (96 to an inch) and per cent; display and visibility. Not drawn: what
 * stands in defs, symbol, clipPath, mask, pattern and marker, and shapes with neither fill nor
 * stroke. Lines and open paths whose ends meet within 0.01 mm are joined. Style sheets, text and
 * pictures are not read; a transform in a style is refused, since leaving it out would give a wrong
 * size. A drawing that names no physical size is taken at 96 units to an inch, and a note says so.
 *
 * The file is never more than data: nothing is fetched, no other file opened; entities that hold
 * plain short text are understood (drawing programs write name spaces so) and all others refused.
 */
#pragma once

#include "exchange/outline-read.h"

/* Stated limits; one more is refused by name. */
#define SVG_BYTES_MOST ((size_t)32 * 1024 * 1024)
#define SVG_DEPTH_MOST 200
#define SVG_ELEMENTS_MOST 100000
#define SVG_ATTRIBUTES_MOST 1000000
#define SVG_DRAWN_MOST 200000 /* elements, each use counted anew */
#define SVG_USES_DEEP 20      /* uses of uses */

/* Reads the bytes of an SVG file into `read` (not initialized). Y goes up in what is read, and the
 * lower left corner of the outline's box is at 0, 0. False with an error whose place is the line;
 * on failure `read` is all zero. `options` may be NULL. Free with outline_read_clear. */
bool outline_svg_read(const char *bytes, size_t size, const OutlineOptions *options,
                      OutlineRead *read, Error *error);

/* The same of a file. */
bool outline_svg_load(const char *file, const OutlineOptions *options, OutlineRead *read,
                      Error *error);
