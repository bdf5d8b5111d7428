/* side.h: one side of an outline, a line or an arc, and the nearest points of two. Private to
 * geometry.
 *
 * An arc is kept with what the hot paths need worked out: its centre, and the radius vectors of its
 * ends, so that "does this arc face that point" is two cross products and no angle. All is done
 * relative to the arc's own ends, so that an arc of kilometres' radius is as exact as a small one.
 */
#pragma once

#include "geometry/box.h"
#include "geometry/outline.h"
#include "geometry/pose.h"

/* Two things closer than this touch, in mm: a thousandth of the model's own step, and a thousand
 * times what rounding leaves of coordinates of ten metres. */
#define TOUCH 1e-9

typedef struct Side {
    Point a, b; /* an arc goes counter-clockwise from a to b */
    union {
        struct {
            Point along;       /* b - a */
            double per_square; /* 1 over its squared length, 0 for a point */
        };
        struct {
            Point centre;
            Point from, to; /* a - centre, b - centre */
        };
    };
    double radius;  /* 0 says a line */
    bool major;     /* an arc of more than half a circle */
    bool backwards; /* the ring runs from b to a */
} Side;

/* The nearest pair of points found so far. */
typedef struct Near {
    double square; /* their squared distance, mm2 */
    Point on_a, on_b;
    double depth; /* mm, how far two sides that cross reach through each other; 0 for a touch */
} Near;

#define NEAR_NOTHING ((Near){.square = INFINITY})

/* A line; a equal to b gives a point, which all of this takes. */
Side side_line(Point a, Point b);
/* The counter-clockwise arc about `centre` from a to b, both on the circle; not a whole circle. */
Side side_arc(Point centre, double radius, Point a, Point b, bool major);
/* The side from one vertex to the next: straight when the sagitta is less than TOUCH. */
Side side_between(Vertex start, Vertex end);
Side side_posed(const Side *side, Pose pose);

Point side_start(const Side *side);
Point side_end(const Side *side);
/* Unit directions of travel at the start and the end of a side, in the ring's direction. */
Point side_start_direction(const Side *side);
Point side_end_direction(const Side *side);
Point side_middle(const Side *side);
/* The arc's angle in radians, more than 0; 0 for a line. */
double side_sweep(const Side *side);
double side_length(const Side *side);
Box side_box(const Side *side);

/* True when the way from an arc's centre to p meets the arc. */
static inline bool side_faces(const Side *arc, Point p)
{
    double past_a = point_cross(arc->from, point_minus(p, arc->a));
    double past_b = point_cross(point_minus(p, arc->b), arc->to);
    return arc->major ? !(past_a < 0 && past_b < 0) : past_a >= 0 && past_b >= 0;
}

/* The place on the side nearest to p, and the squared distance. */
double side_nearest_point(const Side *side, Point p, Point *nearest);
/* The furthest place on the side from p, and the squared distance. */
double side_furthest_point(const Side *side, Point p, Point *furthest);

/* Puts the nearest points of the two sides in `near` when they are nearer than what is there, with
 * on_a on `a`. Two sides that cross leave a square of 0 and the greater depth. */
void side_nearest(const Side *a, const Side *b, Near *near);

/* The places that two sides have in common, up to two; where they run along each other, the ends of
 * what they share. Returns their number. */
int side_crossings(const Side *a, const Side *b, Point crossings[2]);
