/* table.h: a ruled table that goes on over sheets. */
#pragma once

#include "drawing/drawing.h"

typedef struct TableColumn {
    const char *heading;
    TextAlong along;
    double width; /* mm; 0 for as wide as its widest cell */
    double most;  /* mm of text that a column of no given width may have; 0: no limit */
    bool frames;  /* its cells are tolerance frames, as tolerance-frame.h has them */
} TableColumn;

/* Borrowed throughout. Cells stand row after row; '\n' in one begins a new line, as does the end of
 * a column whose width is given. */
typedef struct Table {
    const TableColumn *columns;
    size_t column_count;
    const char *const *cells;
    size_t row_count;
    const uint32_t *features; /* for each row, or NULL */
    double height;            /* of the lettering, mm */
    size_t shown_count;       /* how many of the columns are drawn, from the left */
} Table;

#define TABLE_COLUMNS_MOST 16

/* The width of the whole table, mm. */
double table_width(const Drawing *drawing, const Table *table);

/* The width of one column, mm. */
double table_column_width(const Drawing *drawing, const Table *table, size_t column);

/* How many rows from `first` have room in `height` mm below a heading. */
size_t table_fitting(const Drawing *drawing, const Table *table, size_t first, double height);

/* Draws the heading and `count` rows downwards from `corner` (upper left), with a rule below every
 * fifth of them, and returns the box. */
Box table_draw(Drawing *drawing, const Table *table, size_t first, size_t count, Point corner);
