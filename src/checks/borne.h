/* borne.h: how much of a part has nothing of the plate under it. */
#pragma once

#include "placed/placed.h"

typedef struct Unborne {
    double area; /* mm2 */
    Point at;    /* on the face: within the widest place of it */
} Unborne;

/* The area of the station's part, its own round holes taken off, that lies over something cut
 * deeper than the part's seat or beyond its face's edge; within `within` alone where that is given.
 * Recesses of other faces do not count. Where it can't be more than `least` (mm2) by the boxes of
 * what is there, it is not worked out and 0 comes back.
 *
 * Worked out from lines across the part, each cut exactly, summed by Gauss's rule of eight places
 * between the heights where a recess or hole begins or ends: exact for circles and where all
 * borders are straight between those heights, else to about a part in a thousand. Of more than
 * BORNE_CUTS_MOST recesses and holes under one part those of the highest numbers are passed over.
 * Never allocates. */
#define BORNE_CUTS_MOST 60

Unborne part_unborne(const Placed *placed, const Feature *station, const Shape *within,
                     double least);
