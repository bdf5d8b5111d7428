/* shape-gap.c: the gap between two shapes that lie outside each other.
 *
 * The cores' nearest points are found first; the growths come off afterwards. Cores with area that
 * touch or cross at their borders are then told apart, and a core inside the other is looked for.
 */
#include "geometry/shape-private.h"

/* Two nodes to come back to, one of each tree. */
typedef struct LaterPair {
    uint32_t a, b;
    double square;
} LaterPair;

/* How tree b lies in tree a's coordinates. */
typedef struct Lie {
    Pose pose;
    double cosine, sine; /* their sizes, for turned boxes */
} Lie;

static double nodes_square(const Node *a, const Node *b, const Lie *lie)
{
    Point middle = pose_point(lie->pose, (Point){b->x, b->y});
    double half_x = lie->cosine * b->half_x + lie->sine * b->half_y;
    double half_y = lie->sine * b->half_x + lie->cosine * b->half_y;
    double dx = fmax(0, fabs(middle.x - a->x) - (a->half_x + half_x));
    double dy = fmax(0, fabs(middle.y - a->y) - (a->half_y + half_y));
    return dx * dx + dy * dy;
}

static void nearest_of_leaves(const Outline *a, const Node *leaf_a, const Outline *b,
                              const Node *leaf_b, const Lie *lie, Near *near)
{
    for (uint32_t j = leaf_b->first; j < leaf_b->first + leaf_b->count; j++) {
        Side side = side_posed(&b->sides[j], lie->pose);
        for (uint32_t i = leaf_a->first; i < leaf_a->first + leaf_a->count; i++) {
            side_nearest(&a->sides[i], &side, near);
        }
    }
}

/* Walks both trees at once, the nearer pair of nodes first; leaves the points in a's coordinates.
 */
static void nearest_of_outlines(const Outline *a, const Outline *b, const Lie *lie, Near *near)
{
    LaterPair later[2 * TREE_DEPTH];
    int count = 0;
    later[count++] = (LaterPair){0, 0, nodes_square(&a->nodes[0], &b->nodes[0], lie)};
    while (count > 0) {
        LaterPair at = later[--count];
        if (at.square > near->square || near->depth > TOUCH) {
            continue;
        }
        const Node *node_a = &a->nodes[at.a], *node_b = &b->nodes[at.b];
        if (node_a->right == 0 && node_b->right == 0) {
            nearest_of_leaves(a, node_a, b, node_b, lie, near);
            continue;
        }
        /* The larger of the two is opened. */
        bool open_a = node_b->right == 0 ||
                      (node_a->right != 0 &&
                       node_a->half_x + node_a->half_y >= node_b->half_x + node_b->half_y);
        LaterPair left = {open_a ? at.a + 1 : at.a, open_a ? at.b : at.b + 1, 0};
        LaterPair right = {open_a ? node_a->right : at.a, open_a ? at.b : node_b->right, 0};
        left.square = nodes_square(&a->nodes[left.a], &b->nodes[left.b], lie);
        right.square = nodes_square(&a->nodes[right.a], &b->nodes[right.b], lie);
        bool left_first = left.square <= right.square;
        later[count++] = left_first ? right : left;
        later[count++] = left_first ? left : right;
    }
}

static Near near_posed(Near near, Pose pose)
{
    near.on_a = pose_point(pose, near.on_a);
    near.on_b = pose_point(pose, near.on_b);
    return near;
}

static Near near_exchanged(Near near)
{
    return (Near){near.square, near.on_b, near.on_a, near.depth};
}

static Near outlines_near(const Shape *a, const Shape *b, double within)
{
    Near near = {.square = within};
    Lie lie = {.pose = pose_after(pose_inverse(a->pose), b->pose)};
    lie.cosine = fabs(lie.pose.cosine);
    lie.sine = fabs(lie.pose.sine);
    nearest_of_outlines(a->outline, b->outline, &lie, &near);
    return near_posed(near, a->pose);
}

/* An outline and a core that is none, whose few sides are brought to the outline. */
static Near outline_and_core_near(const Shape *outline, const Shape *core, double within)
{
    Near near = {.square = within};
    Shape moved = *core;
    moved.pose = pose_after(pose_inverse(outline->pose), core->pose);
    if (core->core == CORE_POINT) {
        Point p = {moved.pose.x, moved.pose.y}, q = p;
        near.square = outline_nearest_point(outline->outline, p, within, &q);
        near.on_a = q;
        near.on_b = p;
        return near_posed(near, outline->pose);
    }
    Side sides[4];
    int count = shape_core_sides(&moved, sides);
    for (int i = 0; i < count; i++) {
        outline_nearest_side(outline->outline, &sides[i], &near);
    }
    return near_posed(near, outline->pose);
}

static Near cores_near(const Shape *a, const Shape *b, double within)
{
    Near near = {.square = within};
    Side sides_a[4], sides_b[4];
    int count_a = shape_core_sides(a, sides_a), count_b = shape_core_sides(b, sides_b);
    for (int i = 0; i < count_a; i++) {
        for (int j = 0; j < count_b; j++) {
            side_nearest(&sides_a[i], &sides_b[j], &near);
        }
    }
    return near;
}

Near shape_core_near(const Shape *a, const Shape *b, double within)
{
    if (a->core == CORE_OUTLINE) {
        return b->core == CORE_OUTLINE ? outlines_near(a, b, within)
                                       : outline_and_core_near(a, b, within);
    }
    if (b->core == CORE_OUTLINE) {
        return near_exchanged(outline_and_core_near(b, a, within));
    }
    return cores_near(a, b, within);
}

/* How deep the cores' areas lie in each other, for borders that are `apart` and do not cross
 * through each other: 0 where the one is not inside the other. */
static double nested_depth(const Shape *a, const Shape *b, double apart)
{
    bool a_has = shape_core_has_area(a), b_has = shape_core_has_area(b);
    if (apart > TOUCH) {
        bool nested = (a_has && shape_core_depth(a, shape_core_sample(b, 0)) > 0) ||
                      (b_has && shape_core_depth(b, shape_core_sample(a, 0)) > 0);
        return nested ? apart : 0;
    }
    double deepest = 0;
    for (int turn = 0; turn < 2; turn++) {
        const Shape *area = turn ? b : a, *other = turn ? a : b;
        if (!shape_core_has_area(area)) {
            continue;
        }
        size_t count = shape_core_sample_count(other);
        for (size_t i = 0; i < count; i++) {
            deepest = fmax(deepest, shape_core_depth(area, shape_core_sample(other, i)));
        }
    }
    return deepest > TOUCH ? deepest : 0;
}

/* The two points moved out of the cores to the shapes' own borders. */
static void grow_points(const Shape *a, const Shape *b, Point on_a, Point on_b, double apart,
                        Gap *gap)
{
    Point way = apart > 0 ? point_times(point_minus(on_b, on_a), 1 / apart) : (Point){1, 0};
    gap->on_a = point_plus(on_a, point_times(way, a->growth));
    gap->on_b = point_minus(on_b, point_times(way, b->growth));
}

bool shape_gap_within(const Shape *a, const Shape *b, double limit, Gap *gap)
{
    double growths = a->growth + b->growth;
    if (a->core == CORE_POINT && b->core == CORE_POINT) {
        Point on_a = {a->pose.x, a->pose.y}, on_b = {b->pose.x, b->pose.y};
        double apart = point_distance(on_a, on_b);
        gap->distance = apart - growths;
        grow_points(a, b, on_a, on_b, apart, gap);
        return gap->distance <= limit;
    }
    /* Never so little that a touch or a crossing would not be found. */
    double reach = fmax(0, limit + growths) + 2 * TOUCH;
    Near near = shape_core_near(a, b, reach * reach);
    bool areas = shape_core_has_area(a) || shape_core_has_area(b);
    bool found = near.square < reach * reach;
    if (!found && !areas) {
        return false;
    }
    double apart = sqrt(near.square);
    double depth = near.depth > TOUCH ? near.depth : areas ? nested_depth(a, b, apart) : 0;
    if (!found && depth == 0) {
        return false;
    }
    if (!found) {
        /* One core inside the other, with borders further apart than was looked. */
        near = shape_core_near(a, b, INFINITY);
        depth = sqrt(near.square);
    }
    if (depth > 0) {
        gap->distance = -growths - depth;
        grow_points(a, b, near.on_a, near.on_b, 0, gap);
    } else {
        gap->distance = apart - growths;
        grow_points(a, b, near.on_a, near.on_b, apart, gap);
    }
    return gap->distance <= limit;
}

void shape_gap(const Shape *a, const Shape *b, Gap *gap)
{
    shape_gap_within(a, b, INFINITY, gap);
}
