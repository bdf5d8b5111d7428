/* table-sheets.h: the table of holes, laid out on the sheets it takes. */
#pragma once

#include "drawing/hole-table.h"
#include "drawing/table.h"
#include "drawing/views.h"

typedef struct TableSheets {
    Drawing *drawing;
    Table table;
    TableColumn columns[4];
    const char **cells;
    uint32_t *features;
    size_t next; /* the first row that is not drawn yet */
} TableSheets;

void table_sheets_start(TableSheets *sheets, Drawing *drawing, const HoleTable *rows);
void table_sheets_end(TableSheets *sheets);

/* Whether the whole table has room in `body` below or beside views of the given size; then the
 * areas for both. */
bool table_sheets_share(TableSheets *sheets, Box body, ViewsSize size, Box *views, Box *rest);

/* How many sheets with such a body the rows take that are not drawn yet. */
int table_sheets_count(TableSheets *sheets, Box body);

/* Draws as many of the rows left as the body holds, side by side where it is wide enough. */
void table_sheets_draw(TableSheets *sheets, Box body);
