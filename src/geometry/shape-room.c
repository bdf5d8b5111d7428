/* shape-room.c: the room of a shape within another.
 *
 * A convex core grown is an intersection of half planes, each moved out by the growth, so a place's
 * room is the growth less its signed distance from the core, inside as well as outside. That
 * distance is a convex function, greatest over the inner core at a place where one of the core's
 * edges or corners alone decides: the inner core's ends, and where its arcs reach furthest from an
 * edge or a corner. An outline has reflex corners and openings: room-outline.c.
 */
#include "geometry/shape-private.h"

/* The place of the inner core with the greatest signed distance found so far. */
typedef struct Far {
    double distance;
    Point place;
    Point way; /* the unit way in which it grows */
} Far;

/* The signed distance from a rectangle about the origin; a segment and a point are flat ones. */
static double from_rectangle(const Shape *outer, Point p, Point *way)
{
    double half_length = outer->core == CORE_POINT ? 0 : outer->half_length;
    double half_width = outer->core == CORE_RECTANGLE ? outer->half_width : 0;
    double x = fabs(p.x) - half_length, y = fabs(p.y) - half_width;
    double sign_x = p.x < 0 ? -1 : 1, sign_y = p.y < 0 ? -1 : 1;
    if (x <= 0 && y <= 0) {
        *way = x > y ? (Point){sign_x, 0} : (Point){0, sign_y};
        return greater_of(x, y);
    }
    Point out = {greater_of(x, 0), greater_of(y, 0)};
    double distance = point_length(out);
    *way = (Point){sign_x * out.x / distance, sign_y * out.y / distance};
    return distance;
}

static void look_at(const Shape *outer, Point p, Far *far)
{
    Point way;
    double distance = from_rectangle(outer, p, &way);
    if (distance > far->distance) {
        *far = (Far){distance, p, way};
    }
}

static void look_along(const Shape *outer, const Side *side, Far *far)
{
    look_at(outer, side->a, far);
    look_at(outer, side->b, far);
    if (side->radius == 0) {
        return;
    }
    double half_length = outer->core == CORE_POINT ? 0 : outer->half_length;
    double half_width = outer->core == CORE_RECTANGLE ? outer->half_width : 0;
    for (int i = 0; i < 4; i++) {
        Point corner = {i & 1 ? half_length : -half_length, i & 2 ? half_width : -half_width};
        Point furthest;
        side_furthest_point(side, corner, &furthest);
        look_at(outer, furthest, far);
        double reach = i & 1 ? side->radius : -side->radius;
        Point extreme = point_plus(side->centre, i & 2 ? (Point){reach, 0} : (Point){0, reach});
        if (side_faces(side, extreme)) {
            look_at(outer, extreme, far);
        }
    }
}

/* `outer` has the identity pose and a core that is no outline. */
static void room_in_convex(const Shape *outer, const Shape *inner, Gap *gap)
{
    Far far = {.distance = -INFINITY};
    if (inner->core == CORE_OUTLINE) {
        /* Openings reach less far than the outside. */
        const size_t *starts = inner->outline->ring_starts;
        for (size_t i = starts[0]; i < starts[1]; i++) {
            Side side = side_posed(&inner->outline->sides[i], inner->pose);
            look_along(outer, &side, &far);
        }
    } else {
        Side sides[4];
        int count = shape_core_sides(inner, sides);
        for (int i = 0; i < count; i++) {
            look_along(outer, &sides[i], &far);
        }
    }
    gap->distance = outer->growth - far.distance - inner->growth;
    gap->on_a = point_plus(far.place, point_times(far.way, outer->growth - far.distance));
    gap->on_b = point_plus(far.place, point_times(far.way, inner->growth));
}

void shape_room(const Shape *outer, const Shape *inner, Gap *gap)
{
    Shape own_outer = *outer, own_inner = *inner;
    own_outer.pose = POSE_IDENTITY;
    own_inner.pose = pose_after(pose_inverse(outer->pose), inner->pose);
    if (outer->core == CORE_OUTLINE) {
        shape_room_in_outline(&own_outer, &own_inner, gap);
    } else {
        room_in_convex(&own_outer, &own_inner, gap);
    }
    gap->on_a = pose_point(outer->pose, gap->on_a);
    gap->on_b = pose_point(outer->pose, gap->on_b);
}
