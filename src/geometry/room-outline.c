/* room-outline.c: the room within a grown outline.
 *
 * Each element of the grown border is first measured whole, which is a bound, and cut into
 * stretches of border only when its nearest place turns out not to be border.
 */
#include "geometry/grown.h"
#include "geometry/parts.h"

typedef struct Room {
    Grown outer;
    const Shape *inner; /* in outer's coordinates */
    Side inner_sides[4];
    int inner_count; /* 0 for an outline */
    Pose to_inner;
    Near near; /* on_a on outer's grown border, on_b on inner's core */
} Room;

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

static void take(Room *room, Near near)
{
    if (near.square < room->near.square || near.depth > room->near.depth) {
        near.depth = greater_of(near.depth, room->near.depth);
        room->near = near;
    }
}

static bool measure_stretch(const Side *stretch, void *data)
{
    Room *room = data;
    take(room, inner_near(room, stretch, room->near.square));
    return true;
}

static void measure_element(Room *room, const Side *element)
{
    Near near = inner_near(room, element, room->near.square);
    if (!(near.square < room->near.square) && !(near.depth > room->near.depth)) {
        return;
    }
    if (grown_is_border(&room->outer, near.on_a)) {
        take(room, near);
    } else {
        grown_each_stretch(&room->outer, element, measure_stretch, room);
    }
}

/* Measures all elements, the nearest nodes first; a node's elements lie within the growth of it. */
static void measure_all(Room *room, Box inner_box)
{
    Later later[TREE_DEPTH];
    int count = 0;
    later[count++] = (Later){0, 0};
    while (count > 0) {
        Later at = later[--count];
        if (at.square > room->near.square) {
            continue;
        }
        if (at.child & NODE_SIDE) {
            Side elements[2];
            int element_count = grown_elements(&room->outer, at.child & ~NODE_SIDE, elements);
            for (int j = 0; j < element_count; j++) {
                measure_element(room, &elements[j]);
            }
            continue;
        }
        const Node *node = &room->outer.outline->nodes[at.child];
        double squares[NODE_CHILDREN];
        for (int i = 0; i < NODE_CHILDREN; i++) {
            double distance =
                box_distance(box_grown(node_box(node, i), room->outer.growth), inner_box);
            squares[i] = distance * distance;
        }
        count = tree_push(later, count, node, squares, room->near.square);
    }
}

/* How far p lies outside the grown outline, mm; 0 or less inside. */
static double outside(const Room *room, Point p)
{
    return outline_distance(room->outer.outline, p, NULL) - room->outer.growth;
}

/* The search for the furthest of the inner core's border outside, where the borders touch. */
typedef struct Furthest {
    const Room *room;
    bool inner_has_area;
    double distance;
} Furthest;

static bool look_how_far(const Part *part, void *data)
{
    Furthest *furthest = data;
    if (part->lie == PART_APART) {
        furthest->distance = greater_of(furthest->distance, outside(furthest->room, part->middle));
    } else if (part->lie == PART_OTHER && furthest->inner_has_area) {
        furthest->distance = greater_of(furthest->distance, 2 * TOUCH);
    }
    return true;
}

/* How far the inner core reaches out, mm, where its border meets outer's. */
static double furthest_outside(const Room *room, const Shape *outer)
{
    Shape core = *room->inner;
    core.growth = 0;
    Furthest furthest = {room, shape_core_has_area(&core), room->near.depth};
    if (core.core == CORE_POINT) {
        return greater_of(furthest.distance, outside(room, (Point){core.pose.x, core.pose.y}));
    }
    parts_each(&core, outer, look_how_far, &furthest);
    return furthest.distance;
}

static bool stretch_is_covered(const Side *stretch, void *data)
{
    Room *room = data;
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
    int count = grown_elements(&room->outer, index, elements);
    for (int i = 0; i < count && room->near.depth == 0; i++) {
        bool meets = inner_near(room, &elements[i], TOUCH * TOUCH).square < TOUCH * TOUCH;
        if (meets || shape_core_depth(room->inner, side_middle(&elements[i])) > TOUCH) {
            grown_each_stretch(&room->outer, &elements[i], stretch_is_covered, room);
        }
    }
    return room->near.depth == 0;
}

void shape_room_in_outline(const Shape *outer, const Shape *inner, Gap *gap)
{
    Room room = {
        .outer = {outer->outline, outer->growth},
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

    double beyond = room.outer.growth < GROWTH_LEAST ? room.outer.growth : 0;
    double distance = sqrt(room.near.square);
    double out = 0;
    if (distance <= TOUCH) {
        out = furthest_outside(&room, outer);
    } else if (outside(&room, shape_core_sample(inner, 0)) > TOUCH) {
        out = distance;
    }
    if (out <= TOUCH && shape_core_has_area(inner)) {
        /* Inner's border lies inside; what of outer's openings may its area cover? */
        Box box = box_grown(inner_box, room.outer.growth + TOUCH);
        room.near.depth = 0;
        outline_each_side_near(room.outer.outline, box, look_for_covered, &room);
        out = room.near.depth;
    }
    bool reaches_out = out > TOUCH;
    gap->distance = (reaches_out ? -out : distance + beyond) - inner->growth;
    Point way = point_minus(room.near.on_a, room.near.on_b);
    way = distance > 0 ? point_times(way, (reaches_out ? -1 : 1) / distance) : (Point){1, 0};
    gap->on_a = room.near.on_a;
    gap->on_b = point_plus(room.near.on_b, point_times(way, inner->growth));
}
