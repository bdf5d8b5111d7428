/* flat.h: shapes as GEOS polygons, and random shapes; for tests and benchmarks.
 *
 * Flattening works from the vertices alone and shares no code with what is tested.
 */
#pragma once

#include "geometry/shape.h"

#include <stddef.h>
#include <stdint.h>

#include <geos_c.h>

typedef struct Points {
    Point *all;
    size_t count, room;
} Points;

void points_add(Points *points, Point p);
void points_free(Points *points);

/* Adds the side's start and the places of its chords, no further from the arc than `chord_error`,
 * but not its end. */
void flatten_side(Points *points, Vertex start, Vertex end, double chord_error);

/* The core alone, on the face: a point, a line string, or a polygon. */
GEOSGeometry *flat_core(const Shape *shape, double chord_error);
/* The whole shape of a core that is no outline, or of an outline with no growth. */
GEOSGeometry *flat_shape(const Shape *shape, double chord_error);
GEOSGeometry *flat_point(Point p);

/* Numbers that are the same on every machine. */
typedef struct Random {
    uint64_t state;
} Random;

double random_between(Random *random, double low, double high);
size_t random_below(Random *random, size_t count);

typedef struct OutlineKind {
    size_t sides_least, sides_most;
    double radius_least, radius_most;
    double arcs;     /* the part of sides that are arcs */
    double inwards;  /* the part of arcs that bulge inwards */
    double openings; /* the part of outlines with openings */
} OutlineKind;

/* A random outline that goes once round its origin; never NULL. */
Outline *random_outline(Random *random, OutlineKind kind);

/* A random shape about the origin, of the given core; `outline` for CORE_OUTLINE. */
Shape random_shape(Random *random, ShapeCore core, const Outline *outline, double growth_most);
Pose random_pose(Random *random, double spread);
