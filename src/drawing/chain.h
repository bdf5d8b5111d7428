/* chain.h: dimensions from each place of a plate's holes to the next, along two of its edges. */
#pragma once

#include "drawing/ordinates.h"

/* How far a row of them reaches from its edge, for the places of the table, mm. */
double chain_reach(const Drawing *drawing, const HoleTable *table, const FaceView *face,
                   bool beside);

/* Draws one row from the datum on, over all places of holes along the edge where they have room,
 * else over those that locate parts, else nothing. A figure stands in its piece of the line; one
 * that has no room there stands beyond the line, at the end of a thin line from its piece. Returns
 * true when every hole is dimensioned. */
bool chain_draw(Drawing *drawing, const HoleTable *table, const OrdinateEdge *edge);
