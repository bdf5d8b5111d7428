/* shape-gap.c: the gap between two shapes that lie outside each other.
 *
 * The cores' nearest points are found first; the growths come off afterwards. Cores with area that
 * touch or cross at their borders are then told apart, and a core inside the other is looked for.
 */
#include "geometry/shape-private.h"

/* How tree b lies in tree a's coordinates, to a float's digits: good enough for a bound. */
typedef struct Lie {
    Pose pose;
    float xx, xy, yx, yy, x, y; /* the pose as a matrix */
    float turn_x, turn_y;       /* the sizes of cosine and sine, for turned boxes */
    float slack;                /* mm, more than floats round off */
} Lie;

static Lie lie_of(const Outline *a, const Outline *b, Pose pose)
{
    float mirror = pose.turned_over ? -1 : 1;
    Lie lie = {
        .pose = pose,
        .xx = (float)pose.cosine,
        .xy = (float)-pose.sine * mirror,
        .yx = (float)pose.sine,
        .yy = (float)pose.cosine * mirror,
        .x = (float)pose.x,
        .y = (float)pose.y,
        .turn_x = (float)fabs(pose.cosine),
        .turn_y = (float)fabs(pose.sine),
    };
    double sizes = fabs(a->box.x0) + fabs(a->box.x1) + fabs(a->box.y0) + fabs(a->box.y1) +
                   fabs(b->box.x0) + fabs(b->box.x1) + fabs(b->box.y0) + fabs(b->box.y1) +
                   fabs(pose.x) + fabs(pose.y);
    lie.slack = (float)(sizes * 1e-6);
    return lie;
}

/* A node of b in a's coordinates. */
typedef struct TurnedBox {
    float x, y, half_x, half_y;
} TurnedBox;

static inline TurnedBox turned_box(const Node *b, const Lie *lie)
{
    return (TurnedBox){
        lie->xx * b->x + lie->xy * b->y + lie->x,
        lie->yx * b->x + lie->yy * b->y + lie->y,
        lie->turn_x * b->half_x + lie->turn_y * b->half_y + lie->slack,
        lie->turn_y * b->half_x + lie->turn_x * b->half_y + lie->slack,
    };
}

/* No more than the squared distance of what is in both. */
static inline float boxes_square(const Node *a, TurnedBox b)
{
    float dx = fabsf(b.x - a->x) - (a->half_x + b.half_x);
    float dy = fabsf(b.y - a->y) - (a->half_y + b.half_y);
    dx = dx > 0 ? dx : 0;
    dy = dy > 0 ? dy : 0;
    return (dx * dx + dy * dy) * (1 - 1e-6F);
}

static void nearest_of_leaves(const Outline *a, const Node *leaf_a, const Outline *b,
                              const Node *leaf_b, const Lie *lie, Near *near)
{
    for (uint32_t j = leaf_b->start; j < leaf_b->start + leaf_b->count; j++) {
        Side side = side_posed(&b->sides[j], lie->pose);
        for (uint32_t i = leaf_a->start; i < leaf_a->start + leaf_a->count; i++) {
            side_nearest_in_rings(&a->sides[i], &side, near);
        }
    }
}

/* Two nodes to come back to, one of each tree. */
typedef struct LaterPair {
    uint32_t a, b;
    float square;
} LaterPair;

/* Walks both trees at once, the nearer pair of nodes first; leaves the points in a's coordinates.
 */
static void nearest_of_outlines(const Outline *a, const Outline *b, const Lie *lie, Near *near)
{
    LaterPair later[2 * TREE_DEPTH];
    int count = 0;
    later[count++] = (LaterPair){0, 0, 0};
    while (count > 0) {
        LaterPair at = later[--count];
        if ((double)at.square > near->square || near->depth > TOUCH) {
            continue;
        }
        const Node *node_a = &a->nodes[at.a], *node_b = &b->nodes[at.b];
        if (node_a->count > 0 && node_b->count > 0) {
            nearest_of_leaves(a, node_a, b, node_b, lie, near);
            continue;
        }
        /* The larger of the two is opened. */
        bool open_a = node_b->count > 0 ||
                      (node_a->count == 0 &&
                       node_a->half_x + node_a->half_y >= node_b->half_x + node_b->half_y);
        LaterPair left = at, right = at;
        if (open_a) {
            TurnedBox box = turned_box(node_b, lie);
            left.a = node_a->start;
            right.a = left.a + 1;
            left.square = boxes_square(&a->nodes[left.a], box);
            right.square = boxes_square(&a->nodes[right.a], box);
        } else {
            left.b = node_b->start;
            right.b = left.b + 1;
            left.square = boxes_square(node_a, turned_box(&b->nodes[left.b], lie));
            right.square = boxes_square(node_a, turned_box(&b->nodes[right.b], lie));
        }
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

/* True when the outlines lie further apart than `within` along the way from one's middle to the
 * other's; one that lies elsewhere round the other is found out by the trees. */
static bool far_apart(const Outline *a, const Outline *b, Pose pose, double within)
{
    Point middle_a = {(a->box.x0 + a->box.x1) / 2, (a->box.y0 + a->box.y1) / 2};
    Point middle_b = {(b->box.x0 + b->box.x1) / 2, (b->box.y0 + b->box.y1) / 2};
    Point way = point_minus(pose_point(pose, middle_b), middle_a);
    double length = point_length(way);
    if (!(length > 0)) {
        return false;
    }
    way = point_times(way, 1 / length);
    Pose turn = {.cosine = pose.cosine, .sine = pose.sine, .turned_over = pose.turned_over};
    Point back = pose_direction(pose_inverse(turn), (Point){-way.x, -way.y});
    double apart =
        way.x * pose.x + way.y * pose.y - outline_reach_most(a, way) - outline_reach_most(b, back);
    return apart > 0 && apart * apart > within;
}

static Near outlines_near(const Shape *a, const Shape *b, double within)
{
    Near near = {.square = within};
    Pose pose = pose_after(pose_inverse(a->pose), b->pose);
    if (far_apart(a->outline, b->outline, pose, within)) {
        return near;
    }
    Lie lie = lie_of(a->outline, b->outline, pose);
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

/* The nearest points of two segments, or points, that do not cross: one of the four ends is one of
 * them. False where they cross or touch. Written out for itself, since most of what is on a plate
 * are holes and slots. */
static bool segments_near(const Shape *a, const Shape *b, Near *near)
{
    double half_a = a->core == CORE_POINT ? 0 : a->half_length;
    double half_b = b->core == CORE_POINT ? 0 : b->half_length;
    Point way_a = {a->pose.cosine, a->pose.sine}, way_b = {b->pose.cosine, b->pose.sine};
    Point between = {b->pose.x - a->pose.x, b->pose.y - a->pose.y};
    /* Ways along each segment, from its middle: of the other's middle, and how fast that changes.
     */
    double on_a = point_dot(between, way_a), on_b = -point_dot(between, way_b);
    double same = point_dot(way_a, way_b);
    const double ways_a[] = {on_a - half_b * same, on_a + half_b * same, -half_a, half_a};
    const double ways_b[] = {-half_b, half_b, on_b - half_a * same, on_b + half_a * same};
    double best = INFINITY, best_a = 0, best_b = 0;
    for (int i = 0; i < 4; i++) {
        double s = greater_of(-half_a, lesser_of(half_a, ways_a[i]));
        double t = greater_of(-half_b, lesser_of(half_b, ways_b[i]));
        double x = between.x + t * way_b.x - s * way_a.x;
        double y = between.y + t * way_b.y - s * way_a.y;
        double square = x * x + y * y;
        if (square < best) {
            best = square;
            best_a = s;
            best_b = t;
        }
    }
    /* They cross where each one's ends lie on both sides of the other, or so near to it as makes no
     * difference. */
    double sine = point_cross(way_a, way_b), slack = 2 * TOUCH;
    double off_a = fabs(point_cross(between, way_b)), off_b = fabs(point_cross(between, way_a));
    bool crosses = off_a <= half_a * fabs(sine) + slack && off_b <= half_b * fabs(sine) + slack;
    if (crosses && best <= (half_a + half_b + slack) * (half_a + half_b + slack)) {
        return false;
    }
    near->square = best;
    near->on_a = (Point){a->pose.x + best_a * way_a.x, a->pose.y + best_a * way_a.y};
    near->on_b = (Point){b->pose.x + best_b * way_b.x, b->pose.y + best_b * way_b.y};
    near->depth = 0;
    return true;
}

static Near cores_near(const Shape *a, const Shape *b, double within)
{
    Near near = {.square = within};
    if (a->core <= CORE_SEGMENT && b->core <= CORE_SEGMENT && segments_near(a, b, &near)) {
        return near;
    }
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
    if (apart > TOUCH) {
        bool nested = shape_core_covers(a, shape_core_sample(b, 0)) ||
                      shape_core_covers(b, shape_core_sample(a, 0));
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
            deepest = greater_of(deepest, shape_core_depth(area, shape_core_sample(other, i)));
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
    double reach = greater_of(0, limit + growths) + 2 * TOUCH;
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
