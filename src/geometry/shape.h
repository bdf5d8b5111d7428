/* shape.h: what a hole, a slot, a nest or a cutter covers on a face: a core plus a growth.
 *
 * The core is a point, a segment, a rectangle or an outline; the shape is everything no further
 * from the core than the growth. A hole is a point grown by its radius, an obround a segment grown
 * by half its width, a nest an outline grown by its clearance. Outside distance is then the
 * distance of the cores less both growths, exact.
 */
#pragma once

#include "geometry/outline.h"

typedef enum ShapeCore {
    CORE_POINT,
    CORE_SEGMENT,   /* along the pose's X axis, half_length to either side of the pose's place */
    CORE_RECTANGLE, /* half_length along X, half_width along Y, about the pose's place */
    CORE_OUTLINE,
} ShapeCore;

typedef struct Shape {
    ShapeCore core;
    Pose pose;              /* the core's own coordinates on the face */
    double growth;          /* mm, 0 or more */
    double half_length;     /* mm */
    double half_width;      /* mm */
    const Outline *outline; /* CORE_OUTLINE alone; borrowed */
} Shape;

typedef struct Gap {
    double distance;  /* mm; negative where the shapes overlap */
    Point on_a, on_b; /* the two nearest points, on the shapes' borders */
} Gap;

Shape shape_circle(Point centre, double diameter);
/* An obround between the centres of its two ends. */
Shape shape_obround(Point from, Point to, double width);
/* A rectangle of length (along the pose's X) and width over all, with corner radius. */
Shape shape_rectangle(Pose pose, double length, double width, double corner_radius);
/* An outline grown by `growth`; the outline is borrowed. */
Shape shape_outline(const Outline *outline, Pose pose, double growth);

/* False with a named error when a number is NaN, less than 0 where it may not be, or beyond
 * LENGTH_GREATEST, or the outline is missing. What passes has an answer to everything below; what
 * does not gets none that means anything. */
bool shape_check(const Shape *shape, Error *error);

Box shape_box(const Shape *shape);
/* A box round the shape that is at most a little greater, found at once however many sides an
 * outline has: what an index wants of a shape that is being moved. */
Box shape_loose_box(const Shape *shape);
/* True inside or on the border. */
bool shape_contains(const Shape *shape, Point p);

/* The gap between two shapes that lie outside each other. Where they overlap the distance is
 * negative: exact (how far one must move along the line of the two points) when both cores are
 * apart, else at most -(growths), and no more than a sign that they overlap. Cores that touch (to
 * 1e-9 mm) but have no area in common count as apart by 0. Never
 * allocates. */
void shape_gap(const Shape *a, const Shape *b, Gap *gap);

/* The same where only gaps of at most `limit` (mm) matter: false, and `gap` not to be read, when it
 * is more. Much faster where most are. */
bool shape_gap_within(const Shape *a, const Shape *b, double limit, Gap *gap);

/* The room between the border of `outer` and a shape `inner` that lies within it: the least
 * distance from inner's border to outer's, negative when inner reaches out of it. Where inner's
 * core itself reaches out of an outer whose core is an outline, it is at most -(inner's growth) and
 * no more than a sign; in all other cases it is exact. Never allocates. on_a is on outer, on_b on
 * inner. */
void shape_room(const Shape *outer, const Shape *inner, Gap *gap);
