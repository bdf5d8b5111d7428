/* solid-cases.h: solids of random kinds and places, and what can be said of them without the code
 * that is tested: for tests of solids. */
#pragma once

#include "flat.h"

#include "geometry/solid.h"

Placement random_placement(Random *random, double spread);
/* A convex solid of a size of up to 40 mm: a bar, cone, frustum, obround prism or block; one in
 * five has no height, or a core of no size. */
Solid random_solid(Random *random, double spread);

/* The distance of p from a convex solid, 0 within, and the nearest place: by the distance from the
 * core and the height, which make a trapezium. */
double distance_to_solid(const Solid *solid, Space p, Space *nearest);
/* The greatest product of a place of a convex solid with `way`: its corners, and round each a
 * circle. */
double reach_of_solid(const Solid *solid, Space way);
/* A place on the surface of a convex solid for three numbers from 0 to 1: round the border, up, and
 * from the border to the core where `up` is at an end. */
Space place_on_solid(const Solid *solid, double round, double up, double inwards);
