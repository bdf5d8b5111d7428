/* biarc.h: one rational cubic Bézier followed by pairs of tangent arcs. Private to curve.c. */
#pragma once

#include "geometry/curve.h"

/* A rational cubic Bézier in homogeneous coordinates: the point is (x/w, y/w). A cubic has weights
 * of 1; part of an ellipse is a rational quadratic raised by one degree. Weights are more than 0.
 */
typedef struct Rational {
    double x[4], y[4], w[4];
} Rational;

static inline Point rational_control(const Rational *r, int i)
{
    return (Point){r->x[i] / r->w[i], r->y[i] / r->w[i]};
}

/* The greatest distance of a control point from the first. */
double rational_size(const Rational *r);

/* Cuts at the parameter t; `left` or `right` may be `r` itself. */
void rational_split(const Rational *r, double t, Rational *left, Rational *right);

/* The derivative of one coordinate with weights of 1, a quadratic in Bernstein form. */
void rational_derive(const double a[4], double derivative[3]);

/* Adds arcs that follow the curve within `tolerance` to a chain that ends at its beginning; errors
 * as curve.h has them. */
bool curve_add_rational(Curve *curve, const Rational *r, double tolerance, Error *error);
