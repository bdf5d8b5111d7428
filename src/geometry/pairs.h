/* pairs.h: all pairs of many shapes that are nearer than their own limits. */
#pragma once

#include "geometry/shape.h"

#include <stdint.h>

/* Two shapes' numbers in the array, the smaller first, and their gap; shape_gap gives the places.
 */
typedef struct Pair {
    uint32_t a, b;
    double distance; /* mm */
} Pair;

typedef struct Pairs {
    Pair *all;
    size_t count;
} Pairs;

/* The limit of one pair, mm; no greater than the greater of the two shapes' own. */
typedef double (*PairLimit)(uint32_t a, uint32_t b, void *data);

/* Finds each pair whose gap is at most its limit, in ascending order of a and then b. `limits` has
 * a number in mm, 0 or more, for each shape; a pair's limit is the greater of its two, or what
 * `pair_limit` says where that is not NULL. The shapes must have passed shape_check; there are less
 * than 2^31 of them. Takes time in proportion to the shapes and to the pairs whose boxes come near.
 * False, with nothing found, when there is no memory. Free with pairs_free. */
bool pairs_find(const Shape *shapes, size_t count, const double *limits, PairLimit pair_limit,
                void *data, Pairs *pairs);
void pairs_free(Pairs *pairs);
