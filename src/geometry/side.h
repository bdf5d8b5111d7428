/* side.h: one side of an outline, a line or an arc, and the nearest points of two. Private to
 * geometry.
 *
 * An arc is kept with its centre and the way it goes round, so that "does this arc face that point"
 * is two cross products and no angle. Distances are taken from the arc's own ends and not from its
 * centre, whose last digits an arc of kilometres' radius has lost.
 */
#pragma once

#include "geometry/box.h"
#include "geometry/outline.h"
#include "geometry/pose.h"

/* fmax and fmin for numbers that are none of them NaN. The library's are calls, since no processor
 * does what they do with NaN, and cost more than all else where boxes are compared. */
static inline double greater_of(double a, double b)
{
    return a > b ? a : b;
}

static inline double lesser_of(double a, double b)
{
    return a < b ? a : b;
}

/* Two things closer than this touch, in mm: a thousandth of the model's own step, and a thousand
 * times what rounding leaves of coordinates of ten metres. */
#define TOUCH 1e-9

/* A side fills one line of the cache. */
typedef struct Side {
    Point a, b; /* an arc goes counter-clockwise from a to b */
    union {
        double per_square; /* of a line: 1 over its squared length, 0 for a point */
        Point centre;      /* of an arc */
    };
    double radius;  /* 0 says a line */
    bool major;     /* an arc of more than half a circle */
    bool backwards; /* the ring runs from b to a */
} Side;

_Static_assert(sizeof(Side) == 64, "a side is one line of the cache");

static inline Point side_along(const Side *line)
{
    return point_minus(line->b, line->a);
}

/* The radius vectors of an arc's ends. */
static inline Point side_from(const Side *arc)
{
    return point_minus(arc->a, arc->centre);
}

static inline Point side_to(const Side *arc)
{
    return point_minus(arc->b, arc->centre);
}

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

static inline Point side_start(const Side *side)
{
    return side->backwards ? side->b : side->a;
}

static inline Point side_end(const Side *side)
{
    return side->backwards ? side->a : side->b;
}

/* Unit directions of travel at the start and the end of a side, in the ring's direction. */
Point side_start_direction(const Side *side);
Point side_end_direction(const Side *side);
Point side_middle(const Side *side);
/* The arc's angle in radians, more than 0; 0 for a line. */
double side_sweep(const Side *side);
double side_length(const Side *side);
Box side_box(const Side *side);
/* The greatest product of a place of the side with the unit direction `way`, mm. */
double side_reach(const Side *side, Point way);

/* True when the way from an arc's centre to p meets the arc. */
static inline bool side_faces(const Side *arc, Point p)
{
    double past_a = point_cross(side_from(arc), point_minus(p, arc->a));
    double past_b = point_cross(point_minus(p, arc->b), side_to(arc));
    return arc->major ? !(past_a < 0 && past_b < 0) : past_a >= 0 && past_b >= 0;
}

/* The same for a direction from the centre. */
static inline bool side_faces_way(const Side *arc, Point way)
{
    double past_a = point_cross(side_from(arc), way), past_b = point_cross(way, side_to(arc));
    return arc->major ? !(past_a < 0 && past_b < 0) : past_a >= 0 && past_b >= 0;
}

static inline double point_square_distance(Point a, Point b)
{
    Point d = point_minus(a, b);
    return point_dot(d, d);
}

static inline double nearest_on_line(const Side *line, Point p, Point *nearest)
{
    Point along = side_along(line);
    double t = point_dot(point_minus(p, line->a), along) * line->per_square;
    t = t > 0 ? t : 0;
    *nearest = t < 1 ? point_plus(line->a, point_times(along, t)) : line->b;
    return point_square_distance(p, *nearest);
}

static inline double nearest_on_arc(const Side *arc, Point p, Point *nearest)
{
    Point w = point_minus(p, arc->centre);
    double square = point_dot(w, w);
    if (!(square > 0) || !side_faces(arc, p)) {
        double to_a = point_square_distance(p, arc->a), to_b = point_square_distance(p, arc->b);
        *nearest = to_a <= to_b ? arc->a : arc->b;
        return lesser_of(to_a, to_b);
    }
    /* |p - c| - r as the power of p over |p - c| + r, the power taken from the arc's own end. */
    double reach = sqrt(square);
    Point e = point_minus(p, arc->a);
    double power = point_dot(e, point_plus(e, point_times(side_from(arc), 2)));
    double outside = power / (reach + arc->radius);
    *nearest = point_minus(p, point_times(w, outside / reach));
    return outside * outside;
}

/* The place on the side nearest to p, and the squared distance. */
static inline double side_nearest_point(const Side *side, Point p, Point *nearest)
{
    return side->radius == 0 ? nearest_on_line(side, p, nearest) : nearest_on_arc(side, p, nearest);
}

/* Where p, on the side, lies along it from 0 at a: a line's part of 1, an arc's angle; the same for
 * b; and the place that lies there. */
double side_way(const Side *side, Point p);
double side_way_end(const Side *side);
Point side_place(const Side *side, double way);
/* The unit direction of travel, in the ring's direction, at a place of the side. */
Point side_direction_at(const Side *side, Point p);

/* The furthest place on the side from p, and the squared distance. */
double side_furthest_point(const Side *side, Point p, Point *furthest);

/* Puts the nearest points of the two sides in `near` when they are nearer than what is there, with
 * on_a on `a`. Two sides that cross leave a square of 0 and the greater depth. */
void side_nearest(const Side *a, const Side *b, Near *near);

/* The same where each side is of a ring all of whose sides are tried, so that only one end of each
 * needs to be looked at: the other is the next side's. */
void side_nearest_in_rings(const Side *a, const Side *b, Near *near);

/* The places that two sides have in common, up to two; where they run along each other, the ends of
 * what they share. Returns their number. */
int side_crossings(const Side *a, const Side *b, Point crossings[2]);
