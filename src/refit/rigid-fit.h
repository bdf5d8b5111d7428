/* rigid-fit.h: laying one set of points on another without stretching it.
 *
 * Points are pairs, from[i] belonging to to[i], in millimetres. Where asked the first set is turned
 * over about its X axis first, as geometry/pose.h has it. Two pairs or more at different places fix
 * the rotation; with fewer it stays 0. No function here allocates. */
#pragma once

#include "geometry/pose.h"

#include <stddef.h>

typedef struct RigidFit {
    Pose pose;       /* lays `from` on `to` */
    double rms;      /* mm: root of the mean square of all deviations */
    double greatest; /* mm: the greatest deviation */
    size_t worst;    /* the pair that has it */
} RigidFit;

/* The pose of least squares: the sum of all squared deviations is as small as it can be. Closed
 * form: the middles are laid on each other and the angle is that of the sum of the products
 * conjugate(from) * to, taken as complex numbers (the two-dimensional case of the singular-value
 * solution of Arun, Huang and Blostein 1987, from memory). False when `count` is 0. */
bool rigid_fit_squares(const Point *from, const Point *to, size_t count, bool turned_over,
                       RigidFit *fit);

/* The pose whose greatest deviation is as small as it can be, each deviation taken as a multiple of
 * its own `plays` (mm, above 0; NULL: all alike). The answer is the best of all rotations, not only
 * of those near the start, to about 1e-6 of itself. `share`, where given, is the greatest deviation
 * as a multiple of its play: up to 1 all pairs lie within their plays. False when `count` is 0. */
bool rigid_fit_greatest(const Point *from, const Point *to, const double *plays, size_t count,
                        bool turned_over, RigidFit *fit, double *share);

/* The pose of least squares among those that keep every deviation within its play. False, with
 * `fit` the pose of rigid_fit_greatest, when there is none (or `count` is 0). */
bool rigid_fit_within(const Point *from, const Point *to, const double *plays, size_t count,
                      bool turned_over, RigidFit *fit);

/* Fills a fit's figures from its pose. */
void rigid_fit_measure(RigidFit *fit, const Point *from, const Point *to, size_t count);
