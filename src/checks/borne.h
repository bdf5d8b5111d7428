/* borne.h: how much of a part has nothing of the plate under it. */
#pragma once

#include "placed/placed.h"

typedef struct Unborne {
    double area; /* mm2 */
    Point at;    /* on the face: within the widest place of it */
} Unborne;

/* The area of the station's part, its own round holes taken off, that lies over something cut
 * deeper than the part's seat or beyond its face's edge; within `within` alone where that is given.
 * Recesses of other faces do not count.
 *
 * Worked out from lines across the part, each cut exactly, summed by Fejer's first rule between the
 * heights where a recess or hole begins or ends (L. Fejer 1933, Math. Zeitschrift 37:287; from
 * memory): exact where all borders are straight between those, else to a few parts in ten thousand.
 * Of more than BORNE_CUTS_MOST recesses and holes under one part the rest are passed over. Never
 * allocates. */
#define BORNE_CUTS_MOST 60

Unborne part_unborne(const Placed *placed, const Feature *station, const Shape *within);
