/* outline-private.h: what an outline keeps beside its vertices. Private to geometry. */
#pragma once

#include "geometry/side.h"

/* A box in the hierarchy over an outline's sides, by its middle and half sizes, which turn with a
 * pose at the cost of four products. Nodes stand in the order of a walk down the left first, so a
 * node's left child is the next one. */
typedef struct Node {
    double x, y, half_x, half_y;
    uint32_t right;        /* the other child; 0 says a leaf */
    uint32_t first, count; /* a leaf's sides, all of one ring */
} Node;

/* No walk through a tree of OUTLINE_SIDES_MOST sides in OUTLINE_RINGS_MOST rings is deeper. */
#define TREE_DEPTH 64

struct Outline {
    int references;
    size_t ring_count, side_count;
    size_t *ring_starts; /* ring_count + 1 */
    Vertex *vertices;    /* side_count, ring after ring */
    Side *sides;         /* side i leaves vertex i */
    Node *nodes;
    size_t node_count;
    Box box;
    double area, length;
    Point centroid;
    Point inside; /* a place in the area, away from the border */
};

/* The ring that a side is of, and the side that follows it there. */
size_t outline_ring_of(const Outline *outline, size_t side);
size_t outline_next_side(const Outline *outline, size_t side);

/* Builds the hierarchy over the sides; `nodes` has room for twice the sides. Returns their number.
 * `rings` has room for ring_count numbers and is scratch. */
size_t outline_build_tree(Outline *outline, size_t *rings);

static inline Box node_box(const Node *node)
{
    return (Box){node->x - node->half_x, node->y - node->half_y, node->x + node->half_x,
                 node->y + node->half_y};
}

static inline double node_square_to_point(const Node *node, Point p)
{
    double dx = fmax(0, fabs(p.x - node->x) - node->half_x);
    double dy = fmax(0, fabs(p.y - node->y) - node->half_y);
    return dx * dx + dy * dy;
}

/* The nearest place on the border when it is nearer than the square root of `square`; else leaves
 * `nearest` and returns `square`. */
double outline_nearest_point(const Outline *outline, Point p, double square, Point *nearest);

/* The nearest points of the border, on_a, and of a side in the outline's own coordinates, on_b,
 * when nearer than what is in `near`. */
void outline_nearest_side(const Outline *outline, const Side *side, Near *near);

/* How many times a ray from p crosses the rings, `but_ring` left out (SIZE_MAX for none), odd or
 * even. Odd is inside. Either answer may come for a place on the border. */
bool outline_parity(const Outline *outline, Point p, size_t but_ring);

/* Calls `visit` for each side whose node meets the box, until it returns false. */
void outline_each_side_near(const Outline *outline, Box box, bool (*visit)(size_t side, void *data),
                            void *data);

/* Fills in the sides, checks all and turns the rings the kept way: outline-check.c. */
bool outline_check(Outline *outline, Error *error);
