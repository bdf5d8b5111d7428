/* user-rows.h: rows that a shop adds to the trade tables in a file of its own.
 *
 * The file is `pinplate/tables.json` in the XDG data folder:
 * {"clamps": [{"name": …, …}, …], "drills": […], "materials": […]}
 * with the columns of data/, lengths as text with their unit. Tables that may be added to: clamps,
 * clearances, dowels, drills, inserts, materials, screws, shoulder-screws, threads. A row with the
 * name of a compiled-in one takes its place. A row that is wrong is reported by its line and left
 * out; the rest load.
 */
#pragma once

#include "geometry/error.h"

#include <stddef.h>

/* The most that is read: of the file, of one row, and of rows in all. */
#define USER_ROWS_BYTES_MOST (4u << 20)
#define USER_ROW_BYTES_MOST (16u << 10)
#define USER_ROWS_MOST 10000

/* Told of each row that is left out: the error has its file, its place ("line 7") and a sentence.
 */
typedef void (*UserRowReport)(const Error *error, void *data);

/* Adds the rows of `path` (NULL: the file in the XDG data folder, where a missing file is no error)
 * and returns how many were taken. Call it once when the program starts, before any table is read
 * from another thread. `report` may be NULL. */
size_t user_rows_load(const char *path, UserRowReport report, void *data);

/* Takes out all rows that were added; pointers to them die. */
void user_rows_clear(void);
