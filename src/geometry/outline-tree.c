/* outline-tree.c: the hierarchy of boxes over an outline's sides, and the walks through it.
 *
 * The sides of a ring follow each other in space as they do in the ring, so halving the ring again
 * and again makes tight boxes with no sorting. Rings are halved by where they lie.
 */
#include "geometry/outline-private.h"

#include <string.h>

/* A float greater than the number, by enough for what turning a box rounds off as well. */
static float float_above(double number)
{
    return nextafterf((float)number, INFINITY) * (1 + 1e-6F) + 1e-30F;
}

/* Puts a child in a node. */
static void set_child(Node *node, int at, Box box, uint32_t child)
{
    float x = (float)(box.x0 + (box.x1 - box.x0) / 2), y = (float)(box.y0 + (box.y1 - box.y0) / 2);
    node->x[at] = x;
    node->y[at] = y;
    node->half_x[at] = float_above(greater_of(box.x1 - (double)x, (double)x - box.x0));
    node->half_y[at] = float_above(greater_of(box.y1 - (double)y, (double)y - box.y0));
    node->child[at] = child;
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

/* What a box of the tree is over: some whole rings, or some sides of one. */
typedef struct Part {
    size_t *rings; /* NULL for sides */
    size_t first, count;
} Part;

static Part part_of_rings(const Outline *outline, size_t *rings, size_t count)
{
    if (count > 1) {
        return (Part){.rings = rings, .count = count};
    }
    size_t first = outline->ring_starts[rings[0]];
    return (Part){.first = first, .count = outline->ring_starts[rings[0] + 1] - first};
}

/* Splits a part of more than one ring or side. */
static void split_part(const Outline *outline, Part part, Part halves[2])
{
    size_t half = part.count / 2;
    if (!part.rings) {
        halves[0] = (Part){.first = part.first, .count = half};
        halves[1] = (Part){.first = part.first + half, .count = part.count - half};
        return;
    }
    Box box = BOX_EMPTY;
    for (size_t i = 0; i < part.count; i++) {
        box = box_with_point(box, (Point){ring_place(outline, part.rings[i], false),
                                          ring_place(outline, part.rings[i], true)});
    }
    halve_rings(outline, part.rings, part.count, box.y1 - box.y0 > box.x1 - box.x0);
    halves[0] = part_of_rings(outline, part.rings, half);
    halves[1] = part_of_rings(outline, part.rings + half, part.count - half);
}

/* Halves a part and its halves again, as far as they go. Returns the number of what comes out. */
static int quarter_part(const Outline *outline, Part part, Part quarters[NODE_CHILDREN])
{
    int count = 1;
    quarters[0] = part;
    for (int round = 0; round < 2; round++) {
        Part split[NODE_CHILDREN] = {{0}};
        int split_count = 0;
        for (int i = 0; i < count; i++) {
            if (quarters[i].count > 1) {
                split_part(outline, quarters[i], split + split_count);
                split_count += 2;
            } else {
                split[split_count++] = quarters[i];
            }
        }
        count = split_count;
        memcpy(quarters, split, sizeof split);
    }
    return count;
}

/* Builds the node over a part and all below it; `used` is the number of nodes so far. Returns the
 * box round it. */
static Box build_node(Outline *outline, size_t *used, Part part)
{
    Node *node = &outline->nodes[(*used)++];
    Part quarters[NODE_CHILDREN];
    int count = quarter_part(outline, part, quarters);
    Box all = BOX_EMPTY;
    for (int i = 0; i < NODE_CHILDREN; i++) {
        if (i >= count) {
            /* So far away that nothing is near it. */
            set_child(node, i, (Box){1e18, 1e18, 1e18, 1e18}, NODE_NONE);
            continue;
        }
        bool is_side = !quarters[i].rings && quarters[i].count == 1;
        uint32_t child = is_side ? NODE_SIDE | (uint32_t)quarters[i].first : (uint32_t)*used;
        Box box = is_side ? side_box(&outline->sides[quarters[i].first])
                          : build_node(outline, used, quarters[i]);
        set_child(node, i, box, child);
        all = box_union(all, box);
    }
    return all;
}

void outline_build_tree(Outline *outline, size_t *rings)
{
    for (size_t i = 0; i < outline->ring_count; i++) {
        rings[i] = i;
    }
    size_t used = 0;
    outline->box = build_node(outline, &used, part_of_rings(outline, rings, outline->ring_count));
}

int tree_push(Later *later, int count, const Node *node, const double squares[NODE_CHILDREN],
              double most)
{
    int base = count;
    for (int i = 0; i < NODE_CHILDREN && node->child[i] != NODE_NONE; i++) {
        if (squares[i] > most) {
            continue;
        }
        int at = count++;
        for (; at > base && later[at - 1].square < squares[i]; at--) {
            later[at] = later[at - 1];
        }
        later[at] = (Later){node->child[i], squares[i]};
    }
    return count;
}

/* The squared distances of a node's children from a box, by its middle and half sizes. */
static inline void node_squares(const Node *node, Point middle, Point half,
                                double squares[NODE_CHILDREN])
{
    for (int i = 0; i < NODE_CHILDREN; i++) {
        double dx = fabs(middle.x - (double)node->x[i]) - ((double)node->half_x[i] + half.x);
        double dy = fabs(middle.y - (double)node->y[i]) - ((double)node->half_y[i] + half.y);
        dx = greater_of(0, dx);
        dy = greater_of(0, dy);
        squares[i] = dx * dx + dy * dy;
    }
}

double outline_nearest_point(const Outline *outline, Point p, double square, Point *nearest)
{
    Later later[TREE_DEPTH];
    int count = 0;
    later[count++] = (Later){0, 0};
    while (count > 0) {
        Later at = later[--count];
        if (at.square >= square) {
            continue;
        }
        if (at.child & NODE_SIDE) {
            Point q;
            double found = side_nearest_point(&outline->sides[at.child & ~NODE_SIDE], p, &q);
            if (found < square) {
                square = found;
                *nearest = q;
            }
            continue;
        }
        double squares[NODE_CHILDREN];
        node_squares(&outline->nodes[at.child], p, (Point){0, 0}, squares);
        count = tree_push(later, count, &outline->nodes[at.child], squares, square);
    }
    return square;
}

void outline_nearest_side(const Outline *outline, const Side *side, Near *near)
{
    Box box = side_box(side);
    Point middle = {box.x0 + (box.x1 - box.x0) / 2, box.y0 + (box.y1 - box.y0) / 2};
    /* What the middle's rounding leaves over, the nodes' half sizes take up. */
    Point half = {(box.x1 - box.x0) / 2, (box.y1 - box.y0) / 2};
    Later later[TREE_DEPTH];
    int count = 0;
    later[count++] = (Later){0, 0};
    while (count > 0) {
        Later at = later[--count];
        /* As near is looked at too, for the deepest of several crossings. */
        if (at.square > near->square) {
            continue;
        }
        if (at.child & NODE_SIDE) {
            side_nearest(&outline->sides[at.child & ~NODE_SIDE], side, near);
            continue;
        }
        double squares[NODE_CHILDREN];
        node_squares(&outline->nodes[at.child], middle, half, squares);
        count = tree_push(later, count, &outline->nodes[at.child], squares, near->square);
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
        bool in_circle = point_dot(e, point_plus(e, point_times(side_from(side), 2))) < 0;
        odd = odd != (on_arcs_side && in_circle);
    }
    return odd;
}

bool outline_parity(const Outline *outline, Point p, size_t but_ring)
{
    size_t skip = but_ring == SIZE_MAX ? SIZE_MAX : outline->ring_starts[but_ring];
    size_t skip_end = but_ring == SIZE_MAX ? SIZE_MAX : outline->ring_starts[but_ring + 1];
    bool odd = false;
    uint32_t later[TREE_DEPTH];
    int count = 0;
    later[count++] = 0;
    while (count > 0) {
        uint32_t at = later[--count];
        if (at & NODE_SIDE) {
            uint32_t side = at & ~NODE_SIDE;
            if (side < skip || side >= skip_end) {
                odd = odd != side_parity(&outline->sides[side], p);
            }
            continue;
        }
        const Node *node = &outline->nodes[at];
        for (int i = 0; i < NODE_CHILDREN && node->child[i] != NODE_NONE; i++) {
            /* Nothing of what lies above, below or left of p is met by a ray to the right. */
            if (fabs(p.y - (double)node->y[i]) <= (double)node->half_y[i] &&
                p.x - (double)node->x[i] <= (double)node->half_x[i]) {
                later[count++] = node->child[i];
            }
        }
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
        if (at & NODE_SIDE) {
            if (!visit(at & ~NODE_SIDE, data)) {
                return;
            }
            continue;
        }
        const Node *node = &outline->nodes[at];
        for (int i = 0; i < NODE_CHILDREN && node->child[i] != NODE_NONE; i++) {
            if (box_meets(node_box(node, i), box)) {
                later[count++] = node->child[i];
            }
        }
    }
}
