/* svg-transform.h: SVG's affine transforms.
 *
 * x' = a x + c y + e, y' = b x + d y + f, in the order in which SVG writes matrix(a b c d e f).
 */
#pragma once

#include "geometry/point.h"

#include <stdbool.h>

typedef struct Transform {
    double a, b, c, d, e, f;
} Transform;

#define TRANSFORM_IDENTITY ((Transform){1, 0, 0, 1, 0, 0})

static inline Point transform_direction(const Transform *t, Point p)
{
    return (Point){t->a * p.x + t->c * p.y, t->b * p.x + t->d * p.y};
}

static inline Point transform_point(const Transform *t, Point p)
{
    return point_plus(transform_direction(t, p), (Point){t->e, t->f});
}

/* The transform that does `inner` first and then `outer`. */
Transform transform_after(const Transform *outer, const Transform *inner);

/* Reads a `transform` attribute: any number of matrix, translate, scale, rotate, skewX and skewY,
 * the last of them done first (SVG 1.1 section 7.6). False where it is not one, and *place is then
 * how many characters in. */
bool transform_read(const char *text, Transform *transform, long *place);

/* What puts a viewBox ("x y width height") into a viewport of the given size in px, by a
 * `preserveAspectRatio` attribute, which may be NULL (SVG 1.1 section 7.8). False where one of the
 * two can't be read, or the box has no size. */
bool transform_view_box(const char *view_box, const char *aspect, double width, double height,
                        Transform *transform);

/* Reads a viewBox. False where it is not one or has no size. */
bool view_box_read(const char *text, double box[4]);
