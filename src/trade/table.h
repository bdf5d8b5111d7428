/* table.h: the rows of one trade table: those compiled in from data/, and those a user added.
 *
 * Private to src/trade: other folders use drill.h, thread.h and so on, which say what a row means.
 * Rows are added once, when the program starts; after that a table is only read, from any thread.
 */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stdbool.h>
#include <stddef.h>

typedef enum ColumnKind {
    COLUMN_TEXT,   /* const char * */
    COLUMN_LENGTH, /* Length */
    COLUMN_NUMBER, /* double */
    COLUMN_COUNT,  /* int */
    COLUMN_CHOICE, /* an enum that counts from 0 in the order of `choices` */
} ColumnKind;

typedef struct Column {
    const char *name;
    ColumnKind kind;
    size_t offset;
    bool required;
    const char *choices; /* words with a blank between, for COLUMN_CHOICE */
} Column;

#define TABLE_UNSORTED ((size_t)-1)

typedef struct Table {
    const char *name;
    const void *rows;
    size_t row_count;
    size_t row_size;
    const Column *columns;
    size_t column_count;
    size_t sorted_by; /* the offset of the Length that rows are sorted by, or TABLE_UNSORTED */
    const void **all; /* compiled-in and added rows in order; NULL while nothing was added */
    size_t all_count;
} Table;

/* Each is in a C file made by tables.py. */
extern Table clamp_table;
extern Table clearance_table;
extern Table deviation_table;
extern Table dowel_table;
extern Table drill_table;
extern Table insert_table;
extern Table material_table;
extern Table screw_table;
extern Table shoulder_screw_table;
extern Table thread_table;
extern Table thread_tolerance_table;
extern Table tolerance_grade_table;

size_t table_count(const Table *table);
const void *table_row(const Table *table, size_t index);

/* The first column of every row is its name. */
const char *table_row_name(const void *row);

/* The row whose column `name` (the first text of the row) is `name`, or NULL. Rows that the user
 * added come before those compiled in, so that a shop can put its own figures in a row's place. */
const void *table_find(const Table *table, const char *name);

/* table_find, and then without regard to capitals, blanks and inch signs. Where there is no such
 * row NULL, with an error of kind ERROR_MISSING that calls the row `what` and names the nearest: by
 * size where the name can be read as one, else by spelling. */
const void *table_seek(const Table *table, const char *what, const char *name, Error *error);

/* Takes over `row` (row_size bytes from g_malloc, its texts too). */
void table_add(Table *table, void *row);

/* Frees a row that was not taken over, with its texts. */
void table_free_row(const Table *table, void *row);

/* Frees what was added. */
void table_clear(Table *table);
