/* solid-private.h: support points and the nearest points of convex solids. Private to geometry. */
#pragma once

#include "geometry/outline-private.h"
#include "geometry/solid.h"

/* The point of a convex solid, in its own coordinates, furthest along `way`; where a whole line or
 * face is furthest, a point of it. */
Space solid_support(const Solid *solid, Space way);

/* A solid, its placement seen from the other's. */
typedef struct SolidPair {
    const Solid *a, *b;
    Placement b_in_a;
    Space way;    /* about from b to a, in a's coordinates, where that is known; else none */
    double slack; /* mm; more than 0 asks only whether they are within the limit, and lets what is
                     up to twice this beyond it pass for that */
} SolidPair;

typedef struct Touch {
    double distance;  /* mm; TOUCH or less: they meet, and the points say nothing */
    Space on_a, on_b; /* in a's own coordinates */
    Space way;        /* from b to a, of length 1; also where they were found to be too far apart */
} Touch;

/* The nearest points of two convex solids, with b moved by `shift` (in a's coordinates) first.
 * False when they are further apart than `limit`. */
bool solid_nearest(const SolidPair *pair, Space shift, double limit, Touch *touch);

/* How far b must be moved to be free of a, and which way, as a touch of negative distance; an upper
 * bound. The two are convex and meet. */
void solid_apart(const SolidPair *pair, Touch *touch);
