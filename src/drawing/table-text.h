/* table-text.h: a table that owns its texts, filled cell by cell. */
#pragma once

#include "drawing/table.h"

#include <glib.h>

typedef struct TableText {
    TableColumn columns[TABLE_COLUMNS_MOST];
    size_t column_count;
    GPtrArray *cells; /* char *, row after row */
} TableText;

/* Copies the columns; their headings are borrowed. End with table_text_end. */
void table_text_start(TableText *text, const TableColumn *columns, size_t count);
void table_text_end(TableText *text);

/* The next cell, copied; NULL counts as empty. */
void table_text_add(TableText *text, const char *cell);
/* The next cell, which is taken over. */
void table_text_take(TableText *text, char *cell);
size_t table_text_rows(const TableText *text);

/* The table as it is drawn, with all columns; good until the next cell is added. */
Table table_text_table(const TableText *text, double height);
