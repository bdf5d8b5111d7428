/* space.h: a place or a direction in space, in millimetres, and how a thing lies there. */
#pragma once

#include <math.h>
#include <stdbool.h>

typedef struct Space {
    double x, y, z;
} Space;

static inline Space space_plus(Space a, Space b)
{
    return (Space){a.x + b.x, a.y + b.y, a.z + b.z};
}

static inline Space space_minus(Space a, Space b)
{
    return (Space){a.x - b.x, a.y - b.y, a.z - b.z};
}

static inline Space space_times(Space a, double factor)
{
    return (Space){a.x * factor, a.y * factor, a.z * factor};
}

static inline double space_dot(Space a, Space b)
{
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

static inline Space space_cross(Space a, Space b)
{
    return (Space){a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

static inline double space_length(Space a)
{
    return sqrt(space_dot(a, a));
}

static inline double space_distance(Space a, Space b)
{
    return space_length(space_minus(a, b));
}

/* How a thing's own coordinates lie in space. The three directions are of length 1 and square to
 * each other; turned over, they are left-handed. */
typedef struct Placement {
    Space origin;
    Space along, up, normal; /* its own X, Y and Z */
} Placement;

#define PLACEMENT_IDENTITY ((Placement){{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}})

static inline Space placement_direction(const Placement *placement, Space d)
{
    return space_plus(
        space_plus(space_times(placement->along, d.x), space_times(placement->up, d.y)),
        space_times(placement->normal, d.z));
}

static inline Space placement_point(const Placement *placement, Space p)
{
    return space_plus(placement->origin, placement_direction(placement, p));
}

/* The other way: into the thing's own coordinates. */
static inline Space placement_own_direction(const Placement *placement, Space d)
{
    return (Space){space_dot(placement->along, d), space_dot(placement->up, d),
                   space_dot(placement->normal, d)};
}

static inline Space placement_own_point(const Placement *placement, Space p)
{
    return placement_own_direction(placement, space_minus(p, placement->origin));
}

/* The placement of a thing that lies as `inner` says in the coordinates of one that lies as `outer`
 * says. */
static inline Placement placement_after(const Placement *outer, const Placement *inner)
{
    return (Placement){
        placement_point(outer, inner->origin), placement_direction(outer, inner->along),
        placement_direction(outer, inner->up), placement_direction(outer, inner->normal)};
}

/* How the thing at `inner` lies in the own coordinates of the one at `outer`. */
static inline Placement placement_own(const Placement *outer, const Placement *inner)
{
    return (Placement){
        placement_own_point(outer, inner->origin), placement_own_direction(outer, inner->along),
        placement_own_direction(outer, inner->up), placement_own_direction(outer, inner->normal)};
}

/* The least upright block round something. */
typedef struct SpaceBox {
    Space least, most;
} SpaceBox;
