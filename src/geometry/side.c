/* side.c: lines and arcs, their measures and nearest points to a place. */
#include "geometry/side.h"

Side side_line(Point a, Point b)
{
    Point along = point_minus(b, a);
    double square = point_dot(along, along);
    return (Side){.a = a, .b = b, .per_square = square > 0 ? 1 / square : 0};
}

Side side_arc(Point centre, double radius, Point a, Point b, bool major)
{
    return (Side){.a = a, .b = b, .centre = centre, .radius = radius, .major = major};
}

Side side_between(Vertex start, Vertex end)
{
    Point a = {start.x, start.y}, b = {end.x, end.y};
    double sagitta = fabs(start.sagitta);
    if (!(sagitta >= TOUCH)) {
        return side_line(a, b);
    }
    bool backwards = start.sagitta < 0;
    if (backwards) {
        Point swap = a;
        a = b;
        b = swap;
    }
    double half = point_distance(a, b) / 2;
    Point left = {-(b.y - a.y) / (2 * half), (b.x - a.x) / (2 * half)};
    /* The centre lies this far left of the chord's middle: (half^2 - sagitta^2) / (2 sagitta). */
    double aside = (half - sagitta) * (half + sagitta) / (2 * sagitta);
    Point middle = {a.x + (b.x - a.x) / 2, a.y + (b.y - a.y) / 2};
    return (Side){
        .a = a,
        .b = b,
        .centre = point_plus(middle, point_times(left, aside)),
        .radius = (half * half + sagitta * sagitta) / (2 * sagitta),
        .major = sagitta > half,
        .backwards = backwards,
    };
}

Side side_posed(const Side *side, Pose pose)
{
    Side posed = *side;
    posed.a = pose_point(pose, side->a);
    posed.b = pose_point(pose, side->b);
    if (side->radius == 0) {
        return posed;
    }
    posed.centre = pose_point(pose, side->centre);
    if (pose.turned_over) {
        /* A mirrored arc goes round the other way, so its ends change places. */
        Point swap = posed.a;
        posed.a = posed.b;
        posed.b = swap;
        posed.backwards = !side->backwards;
    }
    return posed;
}

/* The direction of travel at the end of a side with the radius vector `from`. */
static Point direction_at(const Side *side, Point from)
{
    if (side->radius == 0) {
        return point_times(side_along(side), sqrt(side->per_square) * (side->backwards ? -1 : 1));
    }
    double factor = (side->backwards ? -1 : 1) / side->radius;
    return (Point){-from.y * factor, from.x * factor};
}

Point side_start_direction(const Side *side)
{
    return direction_at(side, side->backwards ? side_to(side) : side_from(side));
}

Point side_end_direction(const Side *side)
{
    return direction_at(side, side->backwards ? side_from(side) : side_to(side));
}

/* The unit direction from an arc's centre to its middle. */
static Point middle_direction(const Side *arc)
{
    Point chord = point_minus(arc->b, arc->a);
    double length = point_length(chord);
    return (Point){chord.y / length, -chord.x / length};
}

Point side_middle(const Side *side)
{
    Point middle = {side->a.x + (side->b.x - side->a.x) / 2,
                    side->a.y + (side->b.y - side->a.y) / 2};
    if (side->radius == 0) {
        return middle;
    }
    /* The sagitta again, without the difference of two great numbers. */
    double half = point_distance(side->a, side->b) / 2;
    double rest = sqrt(greater_of(0, (side->radius - half) * (side->radius + half)));
    double sagitta = side->major ? side->radius + rest : half * half / (side->radius + rest);
    return point_plus(middle, point_times(middle_direction(side), sagitta));
}

double side_sweep(const Side *side)
{
    if (side->radius == 0) {
        return 0;
    }
    double half = point_distance(side->a, side->b) / 2;
    double rest = sqrt(greater_of(0, (side->radius - half) * (side->radius + half)));
    return 2 * atan2(half, side->major ? -rest : rest);
}

double side_way(const Side *side, Point p)
{
    Point e = point_minus(p, side->a);
    if (side->radius == 0) {
        return point_dot(e, side_along(side)) * side->per_square;
    }
    Point from = side_from(side);
    double square = side->radius * side->radius;
    double angle = atan2(point_cross(from, e), square + point_dot(from, e));
    return angle < -1e-9 ? angle + 2 * M_PI : angle;
}

double side_way_end(const Side *side)
{
    return side->radius > 0 ? side_sweep(side) : 1;
}

Point side_place(const Side *side, double way)
{
    if (side->radius == 0) {
        return point_plus(side->a, point_times(side_along(side), way));
    }
    /* From the arc's own end, which keeps the digits of a great radius. */
    Point from = side_from(side), across = {-from.y, from.x};
    double half = sin(way / 2);
    return point_plus(
        side->a, point_plus(point_times(from, -2 * half * half), point_times(across, sin(way))));
}

Point side_direction_at(const Side *side, Point p)
{
    return direction_at(side, side->radius > 0 ? point_minus(p, side->centre) : p);
}

double side_length(const Side *side)
{
    return side->radius == 0 ? point_length(side_along(side)) : side->radius * side_sweep(side);
}

/* How far an arc reaches in the unit direction `way`, which it faces: from the chord's middle and
 * the sagitta, since centre and radius are great numbers for a nearly straight arc. */
static double arc_reach(const Side *arc, Point way)
{
    Point out = middle_direction(arc);
    double same = point_dot(out, way);
    if (arc->major || same < 0.5) {
        return point_dot(arc->centre, way) + arc->radius;
    }
    double half = point_distance(arc->a, arc->b) / 2;
    double rest = sqrt(greater_of(0, (arc->radius - half) * (arc->radius + half)));
    double across = point_cross(out, way);
    /* 1 - cos, without a difference of near numbers */
    double beyond = half * half / (arc->radius + rest) + rest * across * across / (1 + same);
    Point middle = {arc->a.x + (arc->b.x - arc->a.x) / 2, arc->a.y + (arc->b.y - arc->a.y) / 2};
    return point_dot(middle, way) + beyond;
}

double side_reach(const Side *side, Point way)
{
    double reach = greater_of(point_dot(side->a, way), point_dot(side->b, way));
    if (side->radius > 0 && side_faces_way(side, way)) {
        reach = greater_of(reach, arc_reach(side, way));
    }
    return reach;
}

Box side_box(const Side *side)
{
    if (side->radius == 0) {
        return box_with_point(box_with_point(BOX_EMPTY, side->a), side->b);
    }
    return (Box){-side_reach(side, (Point){-1, 0}), -side_reach(side, (Point){0, -1}),
                 side_reach(side, (Point){1, 0}), side_reach(side, (Point){0, 1})};
}

double side_furthest_point(const Side *side, Point p, Point *furthest)
{
    if (side->radius > 0) {
        Point w = point_minus(p, side->centre);
        double reach = point_length(w);
        Point opposite =
            reach > 0 ? point_minus(side->centre, point_times(w, side->radius / reach)) : side->a;
        if (side_faces(side, opposite)) {
            *furthest = opposite;
            return point_square_distance(p, opposite);
        }
    }
    double to_a = point_square_distance(p, side->a), to_b = point_square_distance(p, side->b);
    *furthest = to_a >= to_b ? side->a : side->b;
    return greater_of(to_a, to_b);
}
