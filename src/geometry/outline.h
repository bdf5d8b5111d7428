/* outline.h: a closed outline of lines and arcs, with openings; an immutable region of the plane.
 *
 * An arc is its two ends and a sagitta: the signed height of the arc over its chord, positive when
 * the arc goes counter-clockwise, that is, when it bulges to the right of the way from its first
 * end to its second. A sagitta of 0 is a straight line; one larger than half the chord is more than
 * half a circle.
 */
#pragma once

#include "geometry/box.h"
#include "geometry/error.h"
#include "geometry/pose.h"

#include <stddef.h>
#include <stdint.h>

/* A corner of a ring and the side that leaves it. */
typedef struct Vertex {
    double x, y;    /* mm */
    double sagitta; /* mm, of the side from this vertex to the ring's next one */
} Vertex;

/* No outline may have more sides than this, nor more rings. */
#define OUTLINE_SIDES_MOST 20000
#define OUTLINE_RINGS_MOST 2000

typedef struct Outline Outline;

/* Makes an outline from `ring_count` rings; ring i has the vertices from ring_starts[i] up to
 * ring_starts[i + 1]. The first ring is the outside, the rest are openings in it. Rings may come in
 * either direction: the outside is kept counter-clockwise, openings clockwise. Copies what it is
 * given. Returns NULL with a named error on fewer than two vertices in a ring (two only where a
 * side is an arc), a side of no length, a sagitta or coordinate that is NaN or beyond
 * LENGTH_GREATEST, sides that cross or touch other sides than their neighbours at their common end,
 * an opening that does not lie inside, or too many sides. Free with outline_unref. */
Outline *outline_new(const Vertex *vertices, const size_t *ring_starts, size_t ring_count,
                     Error *error);

/* A new outline that lies as this one does in the pose. NULL with a named error when there is no
 * memory or it lies beyond LENGTH_GREATEST. */
Outline *outline_posed(const Outline *outline, Pose pose, Error *error);

/* Outlines are immutable and shared: a reference is cheap. NULL is let through. */
Outline *outline_ref(Outline *outline);
void outline_unref(Outline *outline);

size_t outline_ring_count(const Outline *outline);
/* The vertices of one ring, in the kept direction; owned by the outline. */
const Vertex *outline_ring(const Outline *outline, size_t ring, size_t *count);

Box outline_box(const Outline *outline);
/* mm2, openings taken off; exact for arcs. */
double outline_area(const Outline *outline);
/* mm, all rings. */
double outline_length(const Outline *outline);
/* Of the area, openings taken off. */
Point outline_centroid(const Outline *outline);
/* True in the area or on its border. */
bool outline_contains(const Outline *outline, Point p);
/* The nearest place on the border and its distance in mm, positive outside the area, negative
 * inside it. */
double outline_distance(const Outline *outline, Point p, Point *nearest);
