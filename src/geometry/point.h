/* point.h: a place or a direction in a face's plane, in millimetres. */
#pragma once

#include <math.h>
#include <stdbool.h>

typedef struct Point {
    double x, y;
} Point;

static inline Point point_plus(Point a, Point b)
{
    return (Point){a.x + b.x, a.y + b.y};
}

static inline Point point_minus(Point a, Point b)
{
    return (Point){a.x - b.x, a.y - b.y};
}

static inline Point point_times(Point a, double factor)
{
    return (Point){a.x * factor, a.y * factor};
}

static inline double point_dot(Point a, Point b)
{
    return a.x * b.x + a.y * b.y;
}

/* Twice the signed area of the triangle 0, a, b: positive when b lies to the left of a. */
static inline double point_cross(Point a, Point b)
{
    return a.x * b.y - a.y * b.x;
}

static inline double point_length(Point a)
{
    return sqrt(a.x * a.x + a.y * a.y);
}

static inline double point_distance(Point a, Point b)
{
    return point_length(point_minus(a, b));
}
