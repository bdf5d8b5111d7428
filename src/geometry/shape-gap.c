/* shape-gap.c: the gap between two shapes that lie outside each other.
 *
 * The cores' nearest points are found first; the growths come off afterwards. Cores with area that
 * touch or cross at their borders are then told apart, and a core inside the other is looked for.
 */
#include "geometry/parts.h"

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

/* One box of a tree. */
typedef struct Place {
    float x, y, half_x, half_y;
} Place;

/* Boxes are named by their node and place in it, so that what is put aside is small. */
static inline Place place_of(const Outline *outline, uint32_t name)
{
    const Node *node = &outline->nodes[name / NODE_CHILDREN];
    uint32_t i = name % NODE_CHILDREN;
    return (Place){node->x[i], node->y[i], node->half_x[i], node->half_y[i]};
}

static inline uint32_t child_of(const Outline *outline, uint32_t name)
{
    return outline->nodes[name / NODE_CHILDREN].child[name % NODE_CHILDREN];
}

/* A box of b in a's coordinates. */
static inline Place turned_place(Place b, const Lie *lie)
{
    return (Place){
        lie->xx * b.x + lie->xy * b.y + lie->x,
        lie->yx * b.x + lie->yy * b.y + lie->y,
        lie->turn_x * b.half_x + lie->turn_y * b.half_y + lie->slack,
        lie->turn_y * b.half_x + lie->turn_x * b.half_y + lie->slack,
    };
}

/* No more than the squared distances of a node's children from a box in the same coordinates. */
static inline void squares_from(const Node *node, Place box, float squares[NODE_CHILDREN])
{
    for (int i = 0; i < NODE_CHILDREN; i++) {
        float dx = fabsf(box.x - node->x[i]) - (node->half_x[i] + box.half_x);
        float dy = fabsf(box.y - node->y[i]) - (node->half_y[i] + box.half_y);
        dx = dx > 0 ? dx : 0;
        dy = dy > 0 ? dy : 0;
        squares[i] = (dx * dx + dy * dy) * (1 - 1e-6F);
    }
}

/* The same for a node of b and a box of a. */
static inline void turned_squares_from(const Node *node, Place box, const Lie *lie,
                                       float squares[NODE_CHILDREN])
{
    for (int i = 0; i < NODE_CHILDREN; i++) {
        float x = lie->xx * node->x[i] + lie->xy * node->y[i] + lie->x;
        float y = lie->yx * node->x[i] + lie->yy * node->y[i] + lie->y;
        float half_x = lie->turn_x * node->half_x[i] + lie->turn_y * node->half_y[i] + lie->slack;
        float half_y = lie->turn_y * node->half_x[i] + lie->turn_x * node->half_y[i] + lie->slack;
        float dx = fabsf(box.x - x) - (half_x + box.half_x);
        float dy = fabsf(box.y - y) - (half_y + box.half_y);
        dx = dx > 0 ? dx : 0;
        dy = dy > 0 ? dy : 0;
        squares[i] = (dx * dx + dy * dy) * (1 - 1e-6F);
    }
}

/* A float no less than a squared distance, and less than that of a child that is none. */
static float square_above(double square)
{
    return square < 1e30 ? (float)square * (1 + 1e-6F) : 1e30F;
}

static void nearest_of_leaves(const Outline *a, uint32_t side_a, const Outline *b, uint32_t side_b,
                              const Lie *lie, Near *near)
{
    Side side = side_posed(&b->sides[side_b & ~NODE_SIDE], lie->pose);
    side_nearest_in_rings(&a->sides[side_a & ~NODE_SIDE], &side, near);
}

/* Two boxes to come back to, one of each tree. */
typedef struct LaterPair {
    uint32_t a, b;
    float square;
} LaterPair;

/* Puts aside the children of a node that are near enough to the other tree's box, the nearest on
 * top. A child that is none is never near. */
static int put_aside(LaterPair *later, int count, uint32_t node, bool of_a, uint32_t other,
                     const float squares[NODE_CHILDREN], float least)
{
    int base = count;
    for (uint32_t i = 0; i < NODE_CHILDREN; i++) {
        if (squares[i] > least) {
            continue;
        }
        int at = count++;
        for (; at > base && later[at - 1].square < squares[i]; at--) {
            later[at] = later[at - 1];
        }
        uint32_t name = node * NODE_CHILDREN + i;
        later[at] = (LaterPair){of_a ? name : other, of_a ? other : name, squares[i]};
    }
    return count;
}

/* Walks both trees at once, the nearer pair of boxes first; leaves the points in a's coordinates.
 */
static void nearest_of_outlines(const Outline *a, const Outline *b, const Lie *lie, Near *near)
{
    LaterPair later[2 * TREE_DEPTH];
    int count = 0;
    float squares[NODE_CHILDREN], least = square_above(near->square);
    /* The roots have no boxes of their own to be named by, so a's children are tried on b's. */
    for (uint32_t i = 0; i < NODE_CHILDREN && a->nodes[0].child[i] != NODE_NONE; i++) {
        turned_squares_from(&b->nodes[0], place_of(a, i), lie, squares);
        count = put_aside(later, count, 0, false, i, squares, least);
    }
    /* Also where a crossing is found the others are looked for, so that the deepest is told,
     * whichever shape comes first. */
    while (count > 0) {
        LaterPair at = later[--count];
        if (at.square > least) {
            continue;
        }
        uint32_t child_a = child_of(a, at.a), child_b = child_of(b, at.b);
        bool leaf_a = child_a & NODE_SIDE, leaf_b = child_b & NODE_SIDE;
        if (leaf_a && leaf_b) {
            nearest_of_leaves(a, child_a, b, child_b, lie, near);
            least = square_above(near->square);
            continue;
        }
        Place box_a = place_of(a, at.a), box_b = place_of(b, at.b);
        /* The larger of the two is opened. */
        bool open_a =
            leaf_b || (!leaf_a && box_a.half_x + box_a.half_y >= box_b.half_x + box_b.half_y);
        if (open_a) {
            squares_from(&a->nodes[child_a], turned_place(box_b, lie), squares);
            count = put_aside(later, count, child_a, true, at.b, squares, least);
        } else {
            turned_squares_from(&b->nodes[child_b], box_a, lie, squares);
            count = put_aside(later, count, child_b, false, at.a, squares, least);
        }
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

/* The search for how deep two cores lie in each other. */
typedef struct Depth {
    const Shape *area;
    bool both; /* have area */
    double deepest;
} Depth;

static bool look_how_deep(const Part *part, void *data)
{
    Depth *depth = data;
    if (part->lie == PART_APART) {
        double deep = shape_core_depth(depth->area, part->middle);
        depth->deepest = greater_of(depth->deepest, deep);
    } else if (part->lie == PART_SAME && depth->both) {
        /* Along one border, on the same side of it, two areas have some of it in common. */
        depth->deepest = greater_of(depth->deepest, 2 * TOUCH);
    }
    return true;
}

/* How deep the areas of two cores lie in each other whose borders touch and nowhere cross through
 * each other; 0 where they only touch. */
static double touching_depth(const Shape *a, const Shape *b)
{
    Shape cores[2] = {*a, *b};
    cores[0].growth = 0;
    cores[1].growth = 0;
    Depth depth = {.both = shape_core_has_area(a) && shape_core_has_area(b)};
    for (int i = 0; i < 2; i++) {
        depth.area = &cores[1 - i];
        if (!shape_core_has_area(depth.area)) {
            continue;
        }
        parts_each(&cores[i], depth.area, look_how_deep, &depth);
        /* The middle, which says more than a border where the two are much the same. */
        Point middle = shape_core_sample(&cores[i], shape_core_sample_count(&cores[i]) - 1);
        depth.deepest = greater_of(depth.deepest, shape_core_depth(depth.area, middle));
    }
    return depth.deepest > TOUCH ? depth.deepest : 0;
}

/* How deep the cores' areas lie in each other, for borders that are `apart` and do not cross
 * through each other: 0 where the one is not inside the other. */
static double nested_depth(const Shape *a, const Shape *b, double apart)
{
    if (apart <= TOUCH) {
        return touching_depth(a, b);
    }
    bool nested = shape_core_covers(a, shape_core_sample(b, 0)) ||
                  shape_core_covers(b, shape_core_sample(a, 0));
    return nested ? apart : 0;
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
