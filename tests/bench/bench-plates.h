/* bench-plates.h: the plates that benchmarks of files, checks and moves take. Free with plate_free.
 */
#pragma once

#include "plate/plate.h"

/* Holes far enough apart, every third of them with three steps. */
Plate *holes_plate(int holes);

/* Some 21 records a station: a part of 60 sides with its nest, screws, clamps, slots and nine holes
 * beside it; and two running operations whose passes reach them all. */
Plate *stations_plate(int stations);
