/* region.h: any area of the plane as polygons, and unions, differences and offsets of such.
 *
 * Arcs are flattened on the way in; what must be exact is done with outlines and shapes instead. A
 * region may be empty or in several parts. Regions are immutable; free each with region_free.
 */
#pragma once

#include "geometry/shape.h"

#include <stddef.h>

typedef struct Region Region;

/* The area of a shape on the face, each chord no further than `tolerance` (mm, 0.00001 or more)
 * from its arc. NULL with a named error when the shape encloses nothing, its border touches itself
 * once flattened, or there is no memory. */
Region *region_from_shape(const Shape *shape, double tolerance, Error *error);

/* What is in either, in `a` but not in `b`, and in both. NULL with an error when there is no memory
 * or GEOS refuses, which it says why. */
Region *region_union(const Region *a, const Region *b, Error *error);
Region *region_difference(const Region *a, const Region *b, Error *error);
Region *region_intersection(const Region *a, const Region *b, Error *error);

/* What is in any of `count` regions. */
Region *region_union_all(const Region *const *regions, size_t count, Error *error);

/* Grown by `by` mm with round corners, or shrunk where that is less than 0; the chords of the
 * rounds keep to `tolerance`. GEOS first takes out hollows less deep than a hundredth of `by`, so
 * this is for areas, not for distances. */
Region *region_offset(const Region *region, double by, double tolerance, Error *error);

/* NULL is let through. */
void region_free(Region *region);

bool region_is_empty(const Region *region);
/* mm2 */
double region_area(const Region *region);
/* An empty box for an empty region. */
Box region_box(const Region *region);

/* The rings of all parts: the outside of a part, counter-clockwise, then its openings, clockwise.
 * The same region has the same order always. */
size_t region_ring_count(const Region *region);
/* The points of one ring, the first not said again at the end; owned by the region. */
const Point *region_ring(const Region *region, size_t ring, size_t *count, bool *is_opening);
