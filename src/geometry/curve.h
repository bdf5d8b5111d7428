/* curve.h: Bézier curves and elliptical arcs turned into lines and circular arcs.
 *
 * A Curve is an open chain that grows at its end. What is not a line or a circular arc is replaced
 * by pairs of arcs (biarcs) that have the curve's own points and tangents at the ends of each pair,
 * so the chain is smooth wherever the curve is. The distance between the curve and the chain, in
 * both directions, is at most the tolerance: each piece is accepted on a bound, never on samples.
 */
#pragma once

#include "geometry/outline.h"

/* 1 um, in mm: what the program uses unless told. */
#define CURVE_TOLERANCE 0.001

typedef struct Curve {
    Vertex *vertices;  /* owned; the last one's sagitta means nothing until a side leaves it */
    size_t count;      /* vertices: one more than sides */
    size_t room;       /* vertices that fit in what is allocated */
    size_t sides_most; /* no more sides than this; 0 stands for OUTLINE_SIDES_MOST */
} Curve;

/* Part of an ellipse: centre + u cos(a) + v sin(a) for a from `from` to `from + sweep`, in radians.
 * u and v are any two conjugate half-diameters, so an ellipse is put through a linear transform by
 * putting its centre, u and v through it. */
typedef struct EllipseArc {
    Point centre, u, v; /* mm */
    double from, sweep; /* radians; the sweep is between minus and plus one turn */
} EllipseArc;

/* All of the functions below that can fail return false with ERROR_LIMIT where the chain would have
 * more than `sides_most` sides, ERROR_GEOMETRY where a coordinate is NaN or beyond LENGTH_GREATEST,
 * and ERROR_INTERNAL where memory runs out. The chain keeps what it had and may be used or freed.
 * Tolerances are in mm and more than 0. */

/* Forgets what the chain holds (its memory is kept) and starts it at `p`. A zeroed Curve is empty.
 */
bool curve_begin(Curve *curve, Point p, Error *error);

/* A straight side to `p`; one of no length is left out. */
bool curve_line_to(Curve *curve, Point p, Error *error);

/* A circular arc to `p`; sagitta as in a Vertex. */
bool curve_arc_to(Curve *curve, Point p, double sagitta, Error *error);

/* A quadratic Bézier curve from the chain's end with the control point c. */
bool curve_quadratic_to(Curve *curve, Point c, Point p, double tolerance, Error *error);

/* A cubic Bézier curve from the chain's end with the control points c1 and c2. A straight one gives
 * straight sides, one for each way it runs; a cusp gives a corner. */
bool curve_cubic_to(Curve *curve, Point c1, Point c2, Point p, double tolerance, Error *error);

/* An elliptical arc whose beginning is the chain's end (a straight side is put in between where it
 * is not). Part of a circle gives arcs of at most half a turn each and is exact; an ellipse of no
 * width gives straight sides. */
bool curve_ellipse_to(Curve *curve, const EllipseArc *arc, double tolerance, Error *error);

/* The point at angle a (radians). */
Point ellipse_arc_point(const EllipseArc *arc, double a);

/* The elliptical arc given by its ends, radii, the turn of its X axis in degrees and two flags, as
 * SVG path data gives it: SVG 1.1 (second edition) appendix F.6.5, with radii that are too small
 * made just large enough (F.6.6). False where there is no arc to draw: the ends are the same, or a
 * radius is 0; a straight line is drawn then. */
bool ellipse_arc_from_ends(Point from, Point to, double radius_x, double radius_y, double turn,
                           bool large, bool positive, EllipseArc *arc);

/* Frees the vertices and leaves an empty chain. */
void curve_clear(Curve *curve);
