/* hole-kinds.h: the summary of the hole table: each kind of hole, with its count. */
#pragma once

#include "drawing/flow.h"
#include "drawing/hole-table.h"

/* Holes that have one description and one tolerance are one kind. Nothing without holes. */
void hole_kinds_draw(Flow *flow, const HoleTable *table);

/* The rows of the same kind as row `first`, from it on, that are not taken yet; marks them as
 * taken. `rows` has room for all of the table. Returns how many: 0 where the row is no hole or is
 * taken. */
size_t hole_kinds_take(const HoleTable *table, size_t first, bool *taken, size_t *rows);

/* The marks of rows in short: "A1-A4, A7". Free with g_free. */
char *hole_kinds_marks(const HoleTable *table, const size_t *rows, size_t count);
