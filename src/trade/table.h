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
extern Table drill_table;

size_t table_count(const Table *table);
const void *table_row(const Table *table, size_t index);

/* The row whose column `name` (the first text of the row) is `name`, or NULL. Rows that the user
 * added come before those compiled in, so that a shop can put its own figures in a row's place. */
const void *table_find(const Table *table, const char *name);

/* Takes over `row` (row_size bytes from g_malloc, its texts too). */
void table_add(Table *table, void *row);

/* Frees what was added. */
void table_clear(Table *table);
