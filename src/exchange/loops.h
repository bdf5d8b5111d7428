/* loops.h: the chains of lines and arcs that a drawing or table holds, before anybody knows which
 * of them is the outline. Coordinates are mm with Y up. */
#pragma once

#include "geometry/curve.h"

#include <glib.h>

/* No drawing may have more chains than this, nor more sides in all of them. */
#define LOOPS_MOST 5000
#define LOOP_SIDES_MOST 100000

/* Ends of chains that lie no further apart than this (mm) are the same point. */
#define LOOP_CLOSING 0.01

typedef struct Loop {
    Vertex *vertices; /* owned; of a closed loop the last side runs back to the first vertex */
    size_t count;
    Point *nodes; /* owned; the points that the drawing itself gives, a curve's ends and no more */
    size_t node_count;
    bool closed;
    long line; /* of the file, where it is drawn */
} Loop;

typedef struct Loops {
    GArray *all; /* Loop */
    size_t sides;
} Loops;

Loops *loops_new(void);
void loops_free(Loops *loops);

static inline Loop *loops_at(const Loops *loops, size_t i)
{
    return &g_array_index(loops->all, Loop, i);
}

/* Adds a copy of a chain. A closed one whose last point is not its first gets a straight side back;
 * chains without a side are dropped. False with ERROR_LIMIT where there are too many. */
bool loops_add(Loops *loops, const Curve *chain, const Point *nodes, size_t node_count, bool closed,
               long line, Error *error);

/* Joins open chains whose ends meet within LOOP_CLOSING, turning them round where needed, and
 * closes those whose two ends meet. Returns how many chains it closed over a gap that can be
 * measured. */
size_t loops_join(Loops *loops);

/* mm2, positive when counter-clockwise. */
double loop_area(const Loop *loop);

/* True when a closed loop is a circle, to 2 um or 1 part in 2,500 of its radius, whichever is more
 * (the four Bézier curves that programs commonly draw for a circle are out by 1 part in 3,700).
 * `from_straight` says that it is a circle drawn in short straight sides, of at least 24. */
bool loop_is_round(const Loop *loop, Point *centre, double *diameter, bool *from_straight);
