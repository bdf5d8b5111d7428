/* ordinates.h: the coordinates of a plate's holes, written along two of its edges. */
#pragma once

#include "drawing/dimension.h"
#include "drawing/hole-table.h"

/* Where ordinates go and how far they reach. */
typedef struct OrdinateEdge {
    OrdinateSide side;
    double edge;          /* the edge's coordinate across, on the sheet */
    double from, to;      /* its two ends along, on the sheet */
    double origin, scale; /* from a face's X or Y to the sheet's */
    double datum;         /* mm on the face */
} OrdinateEdge;

/* How far a row of ordinates reaches from its edge, for figures of the table, mm. */
double ordinates_reach(const Drawing *drawing, const HoleTable *table, bool beside);

/* Draws the datum's 0 and one ordinate for each place of a hole along the edge: all holes where
 * they have room, else those that locate parts, else none but the datum's (the table has them all).
 * Returns true when every hole has its ordinate. */
bool ordinates_draw(Drawing *drawing, const HoleTable *table, const OrdinateEdge *edge);
