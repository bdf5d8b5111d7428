/* parts.h: the parts into which one shape's border cuts another's. Private to geometry.
 *
 * Whether two shapes that touch overlap can't be told from their corners: each of them may lie on
 * the other's border. Between two places where the borders meet, though, a border is inside the
 * other shape, outside of it, or on its border, all of it, so one place in the middle tells.
 */
#pragma once

#include "geometry/shape-private.h"

typedef enum PartLie {
    PART_APART, /* not on the other's border; inside or outside of it */
    PART_SAME,  /* on it, both shapes lying on the same side of it */
    PART_OTHER, /* on it, the shapes lying on either side */
} PartLie;

typedef struct Part {
    Point middle; /* on the face */
    PartLie lie;
} Part;

/* Calls `use` with each part of `cut`'s border, on the face, until it says false. Growths count.
 * Never allocates. */
void parts_each(const Shape *cut, const Shape *by, bool (*use)(const Part *part, void *data),
                void *data);
