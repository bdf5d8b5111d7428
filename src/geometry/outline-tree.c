/* outline-tree.c: the hierarchy of boxes over an outline's sides, and the walks through it.
 *
 * The sides of a ring follow each other in space as they do in the ring, so halving the ring again
 * and again makes tight boxes with no sorting. Rings are halved by where they lie.
 */
#include "geometry/outline-private.h"

#include <float.h>

/* A float greater than the number, by enough for what turning a box rounds off as well. */
static float float_above(double number)
{
    return nextafterf((float)number, INFINITY) * (1 + 1e-6F) + 1e-30F;
}

static Node node_of_box(Box box)
{
    float x = (float)(box.x0 + (box.x1 - box.x0) / 2), y = (float)(box.y0 + (box.y1 - box.y0) / 2);
    return (Node){
        .x = x,
        .y = y,
        .half_x = float_above(greater_of(box.x1 - (double)x, (double)x - box.x0)),
        .half_y = float_above(greater_of(box.y1 - (double)y, (double)y - box.y0)),
    };
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

/* A node that is still to be built, over some whole rings or some sides of one. */
typedef struct Part {
    size_t *rings; /* NULL for sides */
    size_t first, count;
} Part;

typedef struct Build {
    Outline *outline;
    size_t used; /* nodes given away so far */
} Build;

static Part part_of_rings(const Outline *outline, size_t *rings, size_t count)
{
    if (count > 1) {
        return (Part){.rings = rings, .count = count};
    }
    size_t first = outline->ring_starts[rings[0]];
    return (Part){.first = first, .count = outline->ring_starts[rings[0] + 1] - first};
}

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

/* Levels of nodes that are laid beside each other, so that a walk down a tree that is not in the
 * cache waits for memory once in so many levels. */
#define LEVELS_TOGETHER 3

/* Builds the nodes below the one at `at`: the next few levels breadth first, then what is below
 * each of those. Boxes are filled in later. */
static void build_below(Build *build, size_t at, Part part)
{
    struct {
        size_t at;
        Part part;
    } queue[2 << LEVELS_TOGETHER];
    size_t head = 0, tail = 0;
    queue[tail].at = at;
    queue[tail++].part = part;
    /* All but the last level of the queue are opened here. */
    for (; head < tail && head < (1 << LEVELS_TOGETHER) - 1; head++) {
        Part own = queue[head].part;
        Node *node = &build->outline->nodes[queue[head].at];
        bool leaf = !own.rings && own.count == 1;
        node->start = (uint32_t)(leaf ? own.first : build->used);
        node->count = leaf ? 1 : 0;
        if (leaf) {
            continue;
        }
        Part halves[2];
        split_part(build->outline, own, halves);
        for (int i = 0; i < 2; i++) {
            queue[tail].at = build->used++;
            queue[tail++].part = halves[i];
        }
    }
    for (; head < tail; head++) {
        build_below(build, queue[head].at, queue[head].part);
    }
}

void outline_build_tree(Outline *outline, size_t *rings)
{
    for (size_t i = 0; i < outline->ring_count; i++) {
        rings[i] = i;
    }
    Build build = {outline, 1};
    build_below(&build, 0, part_of_rings(outline, rings, outline->ring_count));
    /* Children stand behind their parents. */
    for (size_t i = build.used; i-- > 0;) {
        Node *node = &outline->nodes[i];
        Box box = node->count > 0 ? side_box(&outline->sides[node->start])
                                  : box_union(node_box(&outline->nodes[node->start]),
                                              node_box(&outline->nodes[node->start + 1]));
        Node boxed = node_of_box(box);
        boxed.start = node->start;
        boxed.count = node->count;
        *node = boxed;
    }
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
        if (node->count > 0) {
            for (uint32_t i = node->start; i < node->start + node->count; i++) {
                Point q;
                double found = side_nearest_point(&outline->sides[i], p, &q);
                if (found < square) {
                    square = found;
                    *nearest = q;
                }
            }
            continue;
        }
        Later left = {node->start, node_square_to_point(&outline->nodes[node->start], p)};
        Later right = {node->start + 1, node_square_to_point(&outline->nodes[node->start + 1], p)};
        bool left_first = left.square <= right.square;
        later[count++] = left_first ? right : left;
        later[count++] = left_first ? left : right;
    }
    return square;
}

static double node_square_to_box(const Node *node, Point middle, Point half)
{
    double dx = greater_of(0, fabs(middle.x - (double)node->x) - ((double)node->half_x + half.x));
    double dy = greater_of(0, fabs(middle.y - (double)node->y) - ((double)node->half_y + half.y));
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
        if (node->count > 0) {
            for (uint32_t i = node->start; i < node->start + node->count; i++) {
                side_nearest(&outline->sides[i], side, near);
            }
            continue;
        }
        Later left = {node->start, node_square_to_box(&outline->nodes[node->start], middle, half)};
        Later right = {node->start + 1,
                       node_square_to_box(&outline->nodes[node->start + 1], middle, half)};
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
        const Node *node = &outline->nodes[later[--count]];
        /* Nothing of what lies above, below or left of p is met by a ray to the right. */
        bool meets = fabs(p.y - (double)node->y) <= (double)node->half_y &&
                     p.x - (double)node->x <= (double)node->half_x;
        if (meets && node->count == 0) {
            later[count++] = node->start;
            later[count++] = node->start + 1;
            continue;
        }
        if (meets && !(node->start >= skip && node->start < skip_end)) {
            for (uint32_t i = node->start; i < node->start + node->count; i++) {
                odd = odd != side_parity(&outline->sides[i], p);
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
        const Node *node = &outline->nodes[later[--count]];
        if (!box_meets(node_box(node), box)) {
            continue;
        }
        if (node->count == 0) {
            later[count++] = node->start + 1;
            later[count++] = node->start;
            continue;
        }
        for (uint32_t i = node->start; i < node->start + node->count; i++) {
            if (!visit(i, data)) {
                return;
            }
        }
    }
}
