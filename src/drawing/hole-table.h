/* hole-table.h: what the drawing says of each hole, recess and station, row by row. */
#pragma once

#include "drawing/figure.h"
#include "drawing/view.h"

typedef struct HoleRow {
    FeatureId feature;
    FeatureId face;
    FeatureKind kind;
    char *label; /* the plate's own, or one given here */
    char *x, *y; /* from the datum, as figures */
    char *description;
    Point at;     /* mm on the face */
    bool locates; /* a reamed or bored hole, or one that a locator stands in */
} HoleRow;

typedef struct HoleTable {
    HoleRow *rows; /* holes by label, then recesses, stations and keep-clears */
    size_t count;
} HoleTable;

/* The rows of one face, or of all for ID_NONE. Labels that the plate holds are kept. Holes without
 * one are given a letter for each kind of hole and a number in the order of the holes' own numbers;
 * the letters I, O and Q are left out, as they look like figures, and S, N and K stand for slots,
 * nests and keep-clears. Free with hole_table_free. */
HoleTable *hole_table_new(const DrawingSource *source, FeatureId face);
void hole_table_free(HoleTable *table);

/* What a hole is, by its steps: diameter, depth and the signs of sign.h. Free with g_free. */
char *hole_description(const Hole *hole, FigureStyle style);
char *recess_description(const Recess *recess, FigureStyle style);
