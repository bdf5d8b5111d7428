/* placed-solids.h: a feature as solids in the plate's space, for what looks across faces. */
#pragma once

#include "geometry/solid.h"
#include "placed/placed.h"

#define SOLIDS_MOST (2 * SLICES_MOST)

/* The feature's pieces: one for each slice, and one for each drill point. What is cut from the top
 * within an inclined face begins no higher than that face. Returns their number; 0 where the face
 * is gone. Never allocates. */
int placed_solids(const Placed *placed, const Feature *feature, Solid solids[SOLIDS_MOST]);

/* mm of metal between the feature's lowest place and the stock's underside, with or without its
 * drills' points; negative where it comes out below. */
double placed_metal_below(const Placed *placed, const Feature *feature, bool points);

/* The least gap of two features in space; false when it is more than `limit` (mm). Where they
 * overlap it is the deepest overlap of two pieces. Never allocates. */
bool placed_solids_gap(const Placed *placed, const Feature *a, const Feature *b, double limit,
                       SolidGap *gap);

/* The box of a feature of any face, a part's blank with it, as seen square on to `frame`, in that
 * face's coordinates; what is nearer to it in space than some distance is no further from it there.
 */
Box placed_solids_box(const Placed *placed, const Feature *feature, const Frame *frame);
