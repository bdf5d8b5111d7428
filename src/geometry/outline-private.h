/* outline-private.h: what an outline keeps beside its vertices. Private to geometry. */
#pragma once

#include "geometry/side.h"

#define NODE_CHILDREN 4
/* In a child's number: it is a side, whose number the rest is. */
#define NODE_SIDE 0x80000000U
/* A child that is none; those that are come first. */
#define NODE_NONE 0xFFFFFFFFU

/* Up to four boxes of a hierarchy over an outline's sides, each by its middle and half sizes, which
 * turn with a pose at the cost of four products. Four, so that a walk waits for memory and for what
 * it worked out last a quarter as often; floats that stand side by side, so that four cost little
 * more than one. The half sizes take up what a float rounds off. */
typedef struct Node {
    float x[NODE_CHILDREN], y[NODE_CHILDREN];
    float half_x[NODE_CHILDREN], half_y[NODE_CHILDREN];
    uint32_t child[NODE_CHILDREN];
} Node;

/* No walk through a tree of OUTLINE_SIDES_MOST sides in OUTLINE_RINGS_MOST rings has more to come
 * back to: three for each of at most fourteen levels, and one. */
#define TREE_DEPTH 64

#define OUTLINE_REACHES 32

struct Outline {
    int references;
    size_t ring_count, side_count;
    size_t *ring_starts; /* ring_count + 1 */
    Vertex *vertices;    /* side_count, ring after ring */
    Side *sides;         /* side i leaves vertex i */
    Node *nodes;
    Box box;
    float reaches[OUTLINE_REACHES]; /* in directions all round, from (1, 0) on */
    double area, length;
    Point centroid;
    Point inside; /* a place in the area, away from the border */
};

/* The ring that a side is of, and the side that follows it there. */
size_t outline_ring_of(const Outline *outline, size_t side);
size_t outline_next_side(const Outline *outline, size_t side);

/* Builds the hierarchy over the sides; its root is the first node. `nodes` has room for as many as
 * there are sides, `rings` for ring_count numbers and is scratch. */
void outline_build_tree(Outline *outline, size_t *rings);

static inline Box node_box(const Node *node, int child)
{
    double x = node->x[child], y = node->y[child];
    double half_x = node->half_x[child], half_y = node->half_y[child];
    return (Box){x - half_x, y - half_y, x + half_x, y + half_y};
}

/* A child to come back to, and how near anything in it can be. */
typedef struct Later {
    uint32_t child;
    double square;
} Later;

/* Puts the children of a node that are near enough on top of what is to come back to, the nearest
 * last. Returns the new count. */
int tree_push(Later *later, int count, const Node *node, const double squares[NODE_CHILDREN],
              double most);

/* The nearest place on the border when it is nearer than the square root of `square`; else leaves
 * `nearest` and returns `square`. */
double outline_nearest_point(const Outline *outline, Point p, double square, Point *nearest);

/* The nearest points of the border, on_a, and of a side in the outline's own coordinates, on_b,
 * when nearer than what is in `near`. */
void outline_nearest_side(const Outline *outline, const Side *side, Near *near);

/* The greatest product of a place of the outline with the unit direction `way`, mm. */
double outline_reach(const Outline *outline, Point way);

/* A number no less than that, with no search. It is greater by a twentieth at most of the outline's
 * size across the way (over a straight side half way between two directions), mostly far less. */
double outline_reach_most(const Outline *outline, Point way);

/* Fills in what outline_reach_most reads. */
void outline_fill_reaches(Outline *outline);

/* How many times a ray from p crosses the rings, `but_ring` left out (SIZE_MAX for none), odd or
 * even. Odd is inside. Either answer may come for a place on the border. */
bool outline_parity(const Outline *outline, Point p, size_t but_ring);

/* Calls `visit` for each side whose node meets the box, until it returns false. */
void outline_each_side_near(const Outline *outline, Box box, bool (*visit)(size_t side, void *data),
                            void *data);

/* Fills in the sides and the tree, turns the rings the kept way and checks all, but of one that is
 * trusted not whether its sides meet: outline-check.c. */
bool outline_check(Outline *outline, bool trusted, Error *error);
