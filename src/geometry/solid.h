/* solid.h: a body in space: a hole, a slot, a screw, a part, or what a cutter sweeps.
 *
 * A solid is a shape's core (shape.h) drawn out along its own Z from `bottom` to `top`, grown in
 * its own XY plane by one radius at the bottom and another at the top, and by what lies between
 * them in between. A point gives a cylinder, a cone or the frustum of one; a segment an obround
 * prism; a rectangle a block with round corners; an outline a plate of that form. All but the
 * outline are convex. A hole of several steps is several solids.
 */
#pragma once

#include "geometry/shape.h"
#include "geometry/space.h"

typedef struct Solid {
    ShapeCore core;
    double half_length, half_width;   /* mm, as in a shape */
    const Outline *outline;           /* CORE_OUTLINE alone; borrowed */
    double bottom, top;               /* mm along its own Z; bottom <= top */
    double growth_bottom, growth_top; /* mm, 0 or more */
    Placement placement;
} Solid;

/* An outline's arcs are taken for chords no further from them than this (mm) where a solid is not
 * drawn out along the same direction; a distance from there is off by no more than this. */
#define SOLID_TOLERANCE 1e-6

/* The answer for two solids. */
typedef struct SolidGap {
    /* mm. Where the solids overlap it is negative: with b moved by the way from on_b to on_a, which
     * is so long, they are free of each other. A shorter move may do. */
    double distance;
    Space on_a, on_b; /* where they are nearest; where they overlap, where they come free last */
    bool exact;       /* false: a bound, as said above for overlaps and at SOLID_TOLERANCE */
} SolidGap;

/* A round bar from one point to another, of a diameter (mm) at either end: a cylinder, or a cone
 * where one is 0. The points are not the same. */
Solid solid_round(Space from, Space to, double diameter_from, double diameter_to);
/* A shape that lies on a face, drawn out between two heights over it. */
Solid solid_of_shape(const Shape *shape, const Placement *face, double bottom, double top);

/* False with a named error when a number is NaN, negative where it may not be or beyond
 * LENGTH_GREATEST, the bottom is above the top, the directions are not of length 1 or square to
 * each other, or an outline is missing. What passes has an answer to everything below. */
bool solid_check(const Solid *solid, Error *error);

/* The least upright block round it. */
SpaceBox solid_box(const Solid *solid);
/* The same, upright in the coordinates of `placement`. */
SpaceBox solid_box_in(const Solid *solid, const Placement *placement);
/* True inside or on the surface. */
bool solid_contains(const Solid *solid, Space p);

/* The gap between two solids, to 1e-9 mm where it is exact. Never allocates.
 *
 * Convex solids: the point of their Minkowski difference nearest to the origin, by support points
 * (Gilbert, Johnson and Keerthi 1988, IEEE J. Robotics and Automation 4:193; from memory), until
 * the separating plane through the last direction shows that nothing nearer is left. Solids drawn
 * out along one direction: the gap of their shapes and that of their heights, by Pythagoras. */
void solid_gap(const Solid *a, const Solid *b, SolidGap *gap);

/* The same where only gaps of at most `limit` (mm) matter: false, and `gap` not to be read, when it
 * is more. Much faster where most are. */
bool solid_gap_within(const Solid *a, const Solid *b, double limit, SolidGap *gap);
