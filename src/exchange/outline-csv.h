/* outline-csv.h: a part's outline from a table of points.
 *
 *     # a bar with a round end and two holes
 *     unit, in
 *     x, y, sagitta
 *     0, 0
 *     2.5, 0, 0.25
 *     2.5, 0.5
 *     0, 0.5
 *     hole, 0.25, 0.25, 0.1875
 *
 *     1, 0.2
 *     1.5, 0.2
 *     1.5, 0.3
 *     1, 0.3
 *
 * A row is a corner, in order round the outline. Its third figure, where it has one, is the sagitta
 * of the side from this corner to the next: the height of the arc over its chord, positive where it
 * bulges to the right of the way. An empty row begins the next ring; the largest ring is the
 * outline, others are openings. A `hole` row is a round hole: x, y, diameter. A `unit` row (mm, cm,
 * in, um) holds from there on; without one figures are mm. The comma, the semicolon or the tab
 * separates; the decimal sign is the point. Rows that begin with # and a row of headings are passed
 * over. Coordinates are kept as they are: the table's origin is the part's.
 */
#pragma once

#include "exchange/outline-read.h"

#define CSV_BYTES_MOST ((size_t)8 * 1024 * 1024)

/* As outline_svg_read. The error's place is the line. */
bool outline_csv_read(const char *bytes, size_t size, const OutlineOptions *options,
                      OutlineRead *read, Error *error);

bool outline_csv_load(const char *file, const OutlineOptions *options, OutlineRead *read,
                      Error *error);
