/* hole-table.h: what the drawing says of each hole, recess and station, row by row. */
#pragma once

#include "drawing/figure.h"
#include "drawing/view.h"
#include "shopplan/shopplan.h"

typedef struct HoleRow {
    FeatureId feature;
    FeatureId face;
    FeatureKind kind;
    char *label; /* the plate's own, or one given here */
    char *x, *y; /* from the datum, as figures */
    char *description;
    char *plain;     /* the same without tolerances, which stand in `tolerance` */
    char *limits;    /* of size; empty without any */
    char *tolerance; /* limits of size, and a locating hole's zone of position */
    char *frame;     /* a locating hole's, in tolerance-frame.h's form */
    char *tools;     /* numbers of the tools that make it: "1, 4, 7"; NULL until asked for */
    Point at;        /* mm on the face */
    bool locates;    /* a hole that others go by, as shopplan.h has it */
} HoleRow;

typedef struct HoleTable {
    HoleRow *rows; /* holes by label, then recesses, stations and keep-clears */
    size_t count;
    FigureStyle style; /* of the figures in the rows */
} HoleTable;

/* The rows of one face, or of all for ID_NONE. Labels that the plate holds are kept. Holes without
 * one are given a letter for each kind of hole and a number in the order of the holes' own numbers;
 * the letters I, O and Q are left out, as they look like figures, and S, N and K stand for slots,
 * nests and keep-clears. Free with hole_table_free. */
HoleTable *hole_table_new(const DrawingSource *source, FeatureId face);
/* The same with figures of that style. */
HoleTable *hole_table_new_in(const DrawingSource *source, FeatureId face, FigureStyle style);
void hole_table_free(HoleTable *table);

/* Fills in the tools that the plan makes each row with. */
void hole_table_add_tools(HoleTable *table, const Shopplan *plan);

/* What a hole is, by its steps: diameter, depth and the signs of sign.h. Free with g_free. */
char *hole_description(const Hole *hole, FigureStyle style);
char *recess_description(const Recess *recess, FigureStyle style);
