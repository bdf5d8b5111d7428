/* table-sheets.h: the table of holes, laid out on the sheets it takes. */
#pragma once

#include "drawing/hole-table.h"
#include "drawing/table.h"
#include "drawing/views.h"

typedef struct TableSheets {
    Drawing *drawing;
    Table table;
    TableColumn columns[7];
    char **cells;
    uint32_t *features;
    size_t next;     /* the first row that is not drawn yet */
    size_t in_piece; /* rows of one table at most, so that sheets are filled evenly; 0: no limit */
} TableSheets;

/* Columns for mark, place, description, tolerance and tools, and an empty one for the measured
 * figure with a box to tick, where the sheet is wide enough for it. */
void table_sheets_start(TableSheets *sheets, Drawing *drawing, const HoleTable *rows);
void table_sheets_end(TableSheets *sheets);

/* Whether the whole table has room in `body` below or beside views of the given size; then the
 * areas for both. */
bool table_sheets_share(TableSheets *sheets, Box body, ViewsSize size, Box *views, Box *rest);

/* Spreads the rows evenly over the fewest sheets with such a body, and says how many those are. */
int table_sheets_spread(TableSheets *sheets, Box body);

/* Draws the next sheet's rows, side by side where it is wide enough, and below the last row the
 * notes to the table. */
void table_sheets_draw(TableSheets *sheets, Box body);
