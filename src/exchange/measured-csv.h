/* measured-csv.h: a table of measured holes, as a digital readout, calipers or a measuring machine
 * give it.
 *
 *     label, x, y, diameter
 *     A1, 0.500, 0.500, 0.250
 *     A2, 5.500, 0.501, 1/4
 *
 * With a row of headings the columns are found by their names (label, hole or name; x; y; diameter,
 * dia or d), whatever their order and what else there is; a name may carry its unit: "x_mm",
 * "x (in)". Without one a row is x, y; or x, y, diameter; or label, x, y and a diameter where there
 * is one. Of three figures the first is a label where the rows count 1, 2, 3. A `unit` row (mm or
 * in) holds from there on. Figures may carry their own unit or be drill sizes, as typed ones. The
 * comma, the semicolon or the tab separates; with the last two the decimal sign may be a comma.
 * Empty rows and rows that begin with # are passed over.
 */
#pragma once

#include "refit/measured.h"
#include "trade/unit.h"

#define MEASURED_BYTES_MOST ((size_t)8 * 1024 * 1024)

/* Reads a table; `unit` is that of plain figures where neither a heading nor a unit row names one.
 * Fills `table` (not initialized); on failure it is empty, and the error's place is the line. */
bool measured_csv_read(const char *bytes, size_t size, Unit unit, MeasuredTable *table,
                       Error *error);
bool measured_csv_load(const char *file, Unit unit, MeasuredTable *table, Error *error);
