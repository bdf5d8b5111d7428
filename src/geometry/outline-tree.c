/* outline-tree.c: the hierarchy of boxes over an outline's sides, and the walks through it.
 *
 * The sides of a ring follow each other in space as they do in the ring, so halving the ring again
 * and again makes tight boxes with no sorting. Rings are halved by where they lie.
 */
#include "geometry/outline-private.h"

#include <float.h>

#define LEAF_SIDES 4

static Node node_of_box(Box box)
{
    double x = box.x0 + (box.x1 - box.x0) / 2, y = box.y0 + (box.y1 - box.y0) / 2;
    /* A few last places more than half, so that rounding never leaves an end outside. */
    return (Node){
        .x = x,
        .y = y,
        .half_x = fmax(box.x1 - x, x - box.x0) + 4 * DBL_EPSILON * (fabs(box.x0) + fabs(box.x1)),
        .half_y = fmax(box.y1 - y, y - box.y0) + 4 * DBL_EPSILON * (fabs(box.y0) + fabs(box.y1)),
    };
}

static void join_children(Outline *outline, size_t at, size_t right)
{
    Box box = box_union(node_box(&outline->nodes[at + 1]), node_box(&outline->nodes[right]));
    outline->nodes[at] = node_of_box(box);
    outline->nodes[at].right = (uint32_t)right;
}

/* Builds the nodes of some sides of one ring from place `at` on, returns the place behind them. */
static size_t build_sides(Outline *outline, size_t at, size_t first, size_t count)
{
    if (count > LEAF_SIDES) {
        size_t right = build_sides(outline, at + 1, first, count / 2);
        size_t end = build_sides(outline, right, first + count / 2, count - count / 2);
        join_children(outline, at, right);
        return end;
    }
    Box box = BOX_EMPTY;
    for (size_t i = first; i < first + count; i++) {
        box = box_union(box, side_box(&outline->sides[i]));
    }
    outline->nodes[at] = node_of_box(box);
    outline->nodes[at].first = (uint32_t)first;
    outline->nodes[at].count = (uint32_t)count;
    return at + 1;
}

static double ring_place(const Outline *outline, size_t ring, bool by_y)
{
    const Vertex *vertex = &outline->vertices[outline->ring_starts[ring]];
    return by_y ? vertex->y : vertex->x;
}

/* Puts the smaller half of some rings, by their first vertex, in front: Hoare's selection. */
static void halve_rings(const Outline *outline, size_t *rings, size_t count, bool by_y)
{
    size_t low = 0, high = count - 1, middle = count / 2;
    while (low < high) {
        double pivot = ring_place(outline, rings[low + (high - low) / 2], by_y);
        size_t i = low, j = high;
        for (;;) {
            while (ring_place(outline, rings[i], by_y) < pivot) {
                i++;
            }
            while (ring_place(outline, rings[j], by_y) > pivot) {
                j--;
            }
            if (i >= j) {
                break;
            }
            size_t swap = rings[i];
            rings[i++] = rings[j];
            rings[j--] = swap;
        }
        if (middle <= j) {
            high = j;
        } else {
            low = j + 1;
        }
    }
}

static size_t build_rings(Outline *outline, size_t at, size_t *rings, size_t count)
{
    if (count == 1) {
        size_t first = outline->ring_starts[rings[0]];
        return build_sides(outline, at, first, outline->ring_starts[rings[0] + 1] - first);
    }
    Box box = BOX_EMPTY;
    for (size_t i = 0; i < count; i++) {
        box = box_with_point(box, (Point){ring_place(outline, rings[i], false),
                                          ring_place(outline, rings[i], true)});
    }
    halve_rings(outline, rings, count, box.y1 - box.y0 > box.x1 - box.x0);
    size_t right = build_rings(outline, at + 1, rings, count / 2);
    size_t end = build_rings(outline, right, rings + count / 2, count - count / 2);
    join_children(outline, at, right);
    return end;
}

size_t outline_build_tree(Outline *outline, size_t *rings)
{
    for (size_t i = 0; i < outline->ring_count; i++) {
        rings[i] = i;
    }
    return build_rings(outline, 0, rings, outline->ring_count);
}

/* A node to come back to, and how near anything in it can be. */
typedef struct Later {
    uint32_t node;
    double square;
} Later;

double outline_nearest_point(const Outline *outline, Point p, double square, Point *nearest)
{
    Later later[TREE_DEPTH];
    int count = 0;
    later[count++] = (Later){0, node_square_to_point(&outline->nodes[0], p)};
    while (count > 0) {
        Later at = later[--count];
        if (at.square >= square) {
            continue;
        }
        const Node *node = &outline->nodes[at.node];
        if (node->right == 0) {
            for (uint32_t i = node->first; i < node->first + node->count; i++) {
                Point q;
                double found = side_nearest_point(&outline->sides[i], p, &q);
                if (found < square) {
                    square = found;
                    *nearest = q;
                }
            }
            continue;
        }
        Later left = {at.node + 1, node_square_to_point(&outline->nodes[at.node + 1], p)};
        Later right = {node->right, node_square_to_point(&outline->nodes[node->right], p)};
        bool left_first = left.square <= right.square;
        later[count++] = left_first ? right : left;
        later[count++] = left_first ? left : right;
    }
    return square;
}

static double node_square_to_box(const Node *node, Point middle, Point half)
{
    double dx = fmax(0, fabs(middle.x - node->x) - (node->half_x + half.x));
    double dy = fmax(0, fabs(middle.y - node->y) - (node->half_y + half.y));
    return dx * dx + dy * dy;
}

void outline_nearest_side(const Outline *outline, const Side *side, Near *near)
{
    Box box = side_box(side);
    Node padded = node_of_box(box);
    Point middle = {padded.x, padded.y}, half = {padded.half_x, padded.half_y};
    Later later[TREE_DEPTH];
    int count = 0;
    later[count++] = (Later){0, node_square_to_box(&outline->nodes[0], middle, half)};
    while (count > 0) {
        Later at = later[--count];
        /* As near is looked at too, for the deepest of several crossings. */
        if (at.square > near->square) {
            continue;
        }
        const Node *node = &outline->nodes[at.node];
        if (node->right == 0) {
            for (uint32_t i = node->first; i < node->first + node->count; i++) {
                side_nearest(&outline->sides[i], side, near);
            }
            continue;
        }
        Later left = {at.node + 1, node_square_to_box(&outline->nodes[at.node + 1], middle, half)};
        Later right = {node->right, node_square_to_box(&outline->nodes[node->right], middle, half)};
        bool left_first = left.square <= right.square;
        later[count++] = left_first ? right : left;
        later[count++] = left_first ? left : right;
    }
}

/* Twice the area of the triangle from one end of a chord to the other and p, worked out the same
 * for both directions, so that two arcs over one chord never disagree about the side that p lies
 * on. */
static double left_of_chord(Point a, Point b, Point p)
{
    bool in_order = a.x < b.x || (a.x == b.x && a.y < b.y);
    Point low = in_order ? a : b, high = in_order ? b : a;
    double left = point_cross(point_minus(high, low), point_minus(p, low));
    return in_order ? left : -left;
}

/* One side's part in the parity of p: its chord's, turned round where p lies between the chord and
 * the arc. The chords of a ring share their ends exactly, so no corner is counted twice. Ties go as
 * if p lay a little to the right, and a good deal less upwards. */
static bool side_parity(const Side *side, Point p)
{
    Point a = side->a, b = side->b;
    bool across = (a.y > p.y) != (b.y > p.y);
    if (!across && side->radius == 0) {
        return false;
    }
    double left = left_of_chord(a, b, p);
    bool odd = across && (b.y > a.y ? left > 0 : left < 0);
    if (side->radius > 0) {
        bool tie = b.y != a.y ? b.y > a.y : b.x < a.x;
        bool on_arcs_side = left < 0 || (left == 0 && tie);
        Point e = point_minus(p, a);
        bool in_circle = point_dot(e, point_plus(e, point_times(side->from, 2))) < 0;
        odd = odd != (on_arcs_side && in_circle);
    }
    return odd;
}

bool outline_parity(const Outline *outline, Point p, size_t but_ring)
{
    size_t skip = but_ring == SIZE_MAX ? SIZE_MAX : outline->ring_starts[but_ring];
    size_t skip_end = but_ring == SIZE_MAX ? SIZE_MAX : outline->ring_starts[but_ring + 1];
    bool odd = false;
    uint32_t at = 0, end = (uint32_t)outline->node_count;
    uint32_t later[TREE_DEPTH];
    int count = 0;
    for (; at < end;) {
        const Node *node = &outline->nodes[at];
        /* Nothing of what lies above, below or left of p is met by a ray to the right. */
        bool meets = fabs(p.y - node->y) <= node->half_y && node->x + node->half_x >= p.x;
        if (meets && node->right != 0) {
            later[count++] = node->right;
            at++;
            continue;
        }
        if (meets && !(node->first >= skip && node->first < skip_end)) {
            for (uint32_t i = node->first; i < node->first + node->count; i++) {
                odd = odd != side_parity(&outline->sides[i], p);
            }
        }
        at = count > 0 ? later[--count] : end;
    }
    return odd;
}

void outline_each_side_near(const Outline *outline, Box box, bool (*visit)(size_t side, void *data),
                            void *data)
{
    uint32_t later[TREE_DEPTH];
    int count = 0;
    later[count++] = 0;
    while (count > 0) {
        uint32_t at = later[--count];
        const Node *node = &outline->nodes[at];
        if (!box_meets(node_box(node), box)) {
            continue;
        }
        if (node->right != 0) {
            later[count++] = node->right;
            later[count++] = at + 1;
            continue;
        }
        for (uint32_t i = node->first; i < node->first + node->count; i++) {
            if (!visit(i, data)) {
                return;
            }
        }
    }
}
