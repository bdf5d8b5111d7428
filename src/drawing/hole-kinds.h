/* hole-kinds.h: the summary of the hole table: each kind of hole, with its count. */
#pragma once

#include "drawing/flow.h"
#include "drawing/hole-table.h"

/* Holes that have one description and one tolerance are one kind. Nothing without holes. */
void hole_kinds_draw(Flow *flow, const HoleTable *table);

/* The marks of rows in short: "A1-A4, A7". Free with g_free. */
char *hole_kinds_marks(const HoleTable *table, const size_t *rows, size_t count);
