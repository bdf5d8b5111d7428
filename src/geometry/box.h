/* box.h: the least upright rectangle round something, in millimetres. */
#pragma once

#include "geometry/point.h"

typedef struct Box {
    double x0, y0, x1, y1; /* x0 > x1 says empty */
} Box;

#define BOX_EMPTY ((Box){INFINITY, INFINITY, -INFINITY, -INFINITY})

static inline bool box_is_empty(Box box)
{
    return !(box.x0 <= box.x1 && box.y0 <= box.y1);
}

/* A NaN in `p` adds nothing. */
static inline Box box_with_point(Box box, Point p)
{
    /* Not fmin and fmax, which are calls and far slower than all that uses a box. */
    return (Box){p.x < box.x0 ? p.x : box.x0, p.y < box.y0 ? p.y : box.y0,
                 p.x > box.x1 ? p.x : box.x1, p.y > box.y1 ? p.y : box.y1};
}

static inline Box box_union(Box a, Box b)
{
    return (Box){b.x0 < a.x0 ? b.x0 : a.x0, b.y0 < a.y0 ? b.y0 : a.y0, b.x1 > a.x1 ? b.x1 : a.x1,
                 b.y1 > a.y1 ? b.y1 : a.y1};
}

static inline Box box_grown(Box box, double by)
{
    return (Box){box.x0 - by, box.y0 - by, box.x1 + by, box.y1 + by};
}

static inline bool box_meets(Box a, Box b)
{
    return a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;
}

static inline bool box_has_point(Box box, Point p)
{
    return p.x >= box.x0 && p.x <= box.x1 && p.y >= box.y0 && p.y <= box.y1;
}

/* The distance between two boxes, 0 where they meet; infinite when one is empty. */
static inline double box_distance(Box a, Box b)
{
    double left = a.x0 - b.x1, right = b.x0 - a.x1, below = a.y0 - b.y1, above = b.y0 - a.y1;
    double dx = left > right ? left : right, dy = below > above ? below : above;
    dx = dx > 0 ? dx : 0;
    dy = dy > 0 ? dy : 0;
    return sqrt(dx * dx + dy * dy);
}
