/* room-outline.c: the room within a grown outline.
 *
 * The border of a grown outline is made of its sides moved out by the growth and an arc round each
 * corner that points outwards. Where the outline's own corner points inwards, where an opening is
 * narrow, or where two limbs grow into each other, only a part of these elements is border: those
 * places that are no nearer to the outline than the growth. So each element is first measured
 * whole, which is a bound, and cut into stretches between the crossings with other elements only
 * when its nearest place turns out not to be border.
 */
#include "geometry/shape-private.h"

/* mm: a growth less than this leaves the sides as they are. */
#define GROWTH_LEAST 1e-6

typedef struct Room {
    const Outline *outer;
    double growth;
    const Shape *inner; /* in outer's coordinates */
    Side inner_sides[4];
    int inner_count; /* 0 for an outline */
    Pose to_inner;
    Near near; /* on_a on outer's grown border, on_b on inner's core */
} Room;

/* A side moved outwards. False where nothing of it is left, inside an arc of less radius. */
static bool move_side(const Side *side, double growth, Side *moved)
{
    if (side->radius == 0) {
        /* The ring runs from a to b, for a line is never kept backwards by an outline. */
        double factor = growth * sqrt(side->per_square);
        Point along = side_along(side);
        Point out = {along.y * factor, -along.x * factor};
        *moved = *side;
        moved->a = point_plus(side->a, out);
        moved->b = point_plus(side->b, out);
        return true;
    }
    double by = side->backwards ? -growth : growth;
    if (side->radius + by <= TOUCH) {
        return false;
    }
    double part = by / side->radius;
    *moved = *side;
    moved->radius = side->radius + by;
    moved->a = point_plus(side->a, point_times(side_from(side), part));
    moved->b = point_plus(side->b, point_times(side_to(side), part));
    return true;
}

/* The arc round the corner between two sides. False where the corner points inwards or is none. */
static bool round_corner(const Side *side, const Side *next, double growth, Side *arc)
{
    Point in = side_end_direction(side), out = side_start_direction(next);
    double turn = point_cross(in, out), same = point_dot(in, out);
    bool back = same < 0 && fabs(turn) < 1e-9;
    if (turn <= 1e-12 && !back) {
        return false;
    }
    Point corner = side_end(side);
    Point a = {corner.x + in.y * growth, corner.y - in.x * growth};
    Point b = {corner.x + out.y * growth, corner.y - out.x * growth};
    *arc = side_arc(corner, growth, a, b, turn < 0);
    return true;
}

/* The elements of the grown border that a side brings: its own, and that of the corner at its end.
 */
static int elements_of(const Room *room, size_t index, Side elements[2])
{
    const Side *side = &room->outer->sides[index];
    if (room->growth < GROWTH_LEAST) {
        elements[0] = *side;
        return 1;
    }
    int count = move_side(side, room->growth, &elements[0]) ? 1 : 0;
    const Side *next = &room->outer->sides[outline_next_side(room->outer, index)];
    return count + (round_corner(side, next, room->growth, &elements[count]) ? 1 : 0);
}

/* True for a place of an element that is on the grown border, not inside the grown outline. */
static bool is_border(const Room *room, Point p)
{
    if (room->growth < GROWTH_LEAST) {
        return true;
    }
    double least = room->growth - TOUCH;
    Point ignored;
    return outline_nearest_point(room->outer, p, least * least, &ignored) >= least * least &&
           !outline_parity(room->outer, p, SIZE_MAX);
}

/* The nearest points of an element and the inner core's border, when nearer than `square`. */
static Near inner_near(const Room *room, const Side *element, double square)
{
    Near near = {.square = square};
    for (int i = 0; i < room->inner_count; i++) {
        side_nearest(element, &room->inner_sides[i], &near);
    }
    if (room->inner_count == 0) {
        Side moved = side_posed(element, room->to_inner);
        outline_nearest_side(room->inner->outline, &moved, &near);
        near = (Near){near.square, pose_point(room->inner->pose, near.on_b),
                      pose_point(room->inner->pose, near.on_a), near.depth};
    }
    return near;
}

/* Where p lies along an element, from 0 at a: a line's fraction, an arc's angle. */
static double way_along(const Side *element, Point p)
{
    Point e = point_minus(p, element->a);
    if (element->radius == 0) {
        return point_dot(e, side_along(element)) * element->per_square;
    }
    double square = element->radius * element->radius;
    double angle =
        atan2(point_cross(side_from(element), e), square + point_dot(side_from(element), e));
    return angle < -1e-9 ? angle + 2 * M_PI : angle;
}

static Point place_along(const Side *element, double way)
{
    if (element->radius == 0) {
        return point_plus(element->a, point_times(side_along(element), way));
    }
    Point from = side_from(element), across = {-from.y, from.x};
    double half = sin(way / 2);
    return point_plus(
        element->a, point_plus(point_times(from, -2 * half * half), point_times(across, sin(way))));
}

static Side stretch_of(const Side *element, double start, double end)
{
    Point a = place_along(element, start), b = place_along(element, end);
    if (element->radius == 0) {
        return side_line(a, b);
    }
    Side stretch = *element;
    stretch.a = a;
    stretch.b = b;
    stretch.major = end - start > M_PI;
    return stretch;
}

/* The search for the first crossing behind a place of an element. */
typedef struct Break {
    const Room *room;
    const Side *element;
    double after, found;
} Break;

static bool look_for_break(size_t index, void *data)
{
    Break *next = data;
    Side elements[2];
    int count = elements_of(next->room, index, elements);
    for (int i = 0; i < count; i++) {
        Point crossings[2];
        int crossing_count = side_crossings(next->element, &elements[i], crossings);
        for (int j = 0; j < crossing_count; j++) {
            double way = way_along(next->element, crossings[j]);
            if (way > next->after) {
                next->found = lesser_of(next->found, way);
            }
        }
    }
    return true;
}

/* Calls `use` with each stretch of an element that is border, until it says false. */
static void each_border_stretch(Room *room, const Side *element,
                                bool (*use)(Room *room, const Side *stretch))
{
    double end = element->radius > 0 ? side_sweep(element) : 1;
    /* Stretches shorter than this, as way, are passed over. */
    double least = TOUCH / greater_of(TOUCH, side_length(element)) * end;
    Box box = box_grown(side_box(element), room->growth + 2 * TOUCH);
    double start = 0;
    while (end - start > least) {
        Break next = {room, element, start + least, end};
        outline_each_side_near(room->outer, box, look_for_break, &next);
        if (is_border(room, place_along(element, (start + next.found) / 2))) {
            Side stretch = stretch_of(element, start, next.found);
            if (!use(room, &stretch)) {
                return;
            }
        }
        start = next.found;
    }
}

static void take(Room *room, Near near)
{
    if (near.square < room->near.square || near.depth > room->near.depth) {
        near.depth = greater_of(near.depth, room->near.depth);
        room->near = near;
    }
}

static bool measure_stretch(Room *room, const Side *stretch)
{
    take(room, inner_near(room, stretch, room->near.square));
    return true;
}

static void measure_element(Room *room, const Side *element)
{
    Near near = inner_near(room, element, room->near.square);
    if (!(near.square < room->near.square) && !(near.depth > room->near.depth)) {
        return;
    }
    if (is_border(room, near.on_a)) {
        take(room, near);
    } else {
        each_border_stretch(room, element, measure_stretch);
    }
}

/* Measures all elements, the nearest nodes first; a node's elements lie within the growth of it. */
static void measure_all(Room *room, Box inner_box)
{
    struct {
        uint32_t node;
        double distance;
    } later[TREE_DEPTH];
    const Node *nodes = room->outer->nodes;
    int count = 0;
    later[count].node = 0;
    later[count++].distance = 0;
    while (count > 0) {
        count--;
        double distance = later[count].distance;
        const Node *node = &nodes[later[count].node];
        uint32_t left = node->start, right = node->start + 1;
        if (distance * distance > room->near.square) {
            continue;
        }
        if (node->count == 0) {
            double to_left =
                box_distance(box_grown(node_box(&nodes[left]), room->growth), inner_box);
            double to_right =
                box_distance(box_grown(node_box(&nodes[right]), room->growth), inner_box);
            bool left_first = to_left <= to_right;
            later[count].node = left_first ? right : left;
            later[count++].distance = greater_of(to_left, to_right);
            later[count].node = left_first ? left : right;
            later[count++].distance = lesser_of(to_left, to_right);
            continue;
        }
        for (uint32_t i = node->start; i < node->start + node->count; i++) {
            Side elements[2];
            int element_count = elements_of(room, i, elements);
            for (int j = 0; j < element_count; j++) {
                measure_element(room, &elements[j]);
            }
        }
    }
}

/* How far p lies outside the grown outline, mm; 0 or less inside. */
static double outside(const Room *room, Point p)
{
    return outline_distance(room->outer, p, NULL) - room->growth;
}

/* The furthest of the inner core's places outside, mm, where a border crosses or touches. */
static double furthest_outside(const Room *room)
{
    double furthest = room->near.depth;
    size_t count = shape_core_sample_count(room->inner);
    for (size_t i = 0; i < count; i++) {
        furthest = greater_of(furthest, outside(room, shape_core_sample(room->inner, i)));
    }
    return furthest;
}

static bool stretch_is_covered(Room *room, const Side *stretch)
{
    bool covered = shape_core_depth(room->inner, side_middle(stretch)) > TOUCH;
    if (covered) {
        room->near.depth = greater_of(2 * TOUCH, sqrt(room->near.square));
    }
    return !covered;
}

static bool look_for_covered(size_t index, void *data)
{
    Room *room = data;
    Side elements[2];
    int count = elements_of(room, index, elements);
    for (int i = 0; i < count && room->near.depth == 0; i++) {
        bool meets = inner_near(room, &elements[i], TOUCH * TOUCH).square < TOUCH * TOUCH;
        if (meets || shape_core_depth(room->inner, side_middle(&elements[i])) > TOUCH) {
            each_border_stretch(room, &elements[i], stretch_is_covered);
        }
    }
    return room->near.depth == 0;
}

void shape_room_in_outline(const Shape *outer, const Shape *inner, Gap *gap)
{
    Room room = {
        .outer = outer->outline,
        .growth = outer->growth,
        .inner = inner,
        .to_inner = pose_inverse(inner->pose),
        .near = NEAR_NOTHING,
    };
    if (inner->core != CORE_OUTLINE) {
        room.inner_count = shape_core_sides(inner, room.inner_sides);
    }
    Shape core = *inner;
    core.growth = 0;
    Box inner_box = shape_box(&core);
    measure_all(&room, inner_box);

    double beyond = room.growth < GROWTH_LEAST ? room.growth : 0;
    double distance = sqrt(room.near.square);
    double out = 0;
    if (distance <= TOUCH) {
        out = furthest_outside(&room);
    } else if (outside(&room, shape_core_sample(inner, 0)) > TOUCH) {
        out = distance;
    }
    if (out <= TOUCH && shape_core_has_area(inner)) {
        /* Inner's border lies inside; what of outer's openings may its area cover? */
        Box box = box_grown(inner_box, room.growth + TOUCH);
        room.near.depth = 0;
        outline_each_side_near(room.outer, box, look_for_covered, &room);
        out = room.near.depth;
    }
    bool reaches_out = out > TOUCH;
    gap->distance = (reaches_out ? -out : distance + beyond) - inner->growth;
    Point way = point_minus(room.near.on_a, room.near.on_b);
    way = distance > 0 ? point_times(way, (reaches_out ? -1 : 1) / distance) : (Point){1, 0};
    gap->on_a = room.near.on_a;
    gap->on_b = point_plus(room.near.on_b, point_times(way, inner->growth));
}
