/* side.c: lines and arcs, their measures and nearest points to a place. */
#include "geometry/side.h"

Side side_line(Point a, Point b)
{
    Side side = {.a = a, .b = b, .along = point_minus(b, a)};
    double square = point_dot(side.along, side.along);
    side.per_square = square > 0 ? 1 / square : 0;
    return side;
}

Side side_arc(Point centre, double radius, Point a, Point b, bool major)
{
    return (Side){
        .a = a,
        .b = b,
        .centre = centre,
        .from = point_minus(a, centre),
        .to = point_minus(b, centre),
        .radius = radius,
        .major = major,
    };
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
    Point along = point_times(point_minus(b, a), 1 / (2 * half));
    Point left = {-along.y, along.x};
    /* The centre lies this far left of the chord's middle: (half^2 - sagitta^2) / (2 sagitta). */
    double aside = (half - sagitta) * (half + sagitta) / (2 * sagitta);
    Point middle = {a.x + (b.x - a.x) / 2, a.y + (b.y - a.y) / 2};
    return (Side){
        .a = a,
        .b = b,
        .centre = point_plus(middle, point_times(left, aside)),
        /* Not a - centre, which would lose the digits of an arc of great radius. */
        .from = {-along.x * half - left.x * aside, -along.y * half - left.y * aside},
        .to = {along.x * half - left.x * aside, along.y * half - left.y * aside},
        .radius = (half * half + sagitta * sagitta) / (2 * sagitta),
        .major = sagitta > half,
        .backwards = backwards,
    };
}

Side side_posed(const Side *side, Pose pose)
{
    Side posed = *side;
    if (side->radius == 0) {
        posed.a = pose_point(pose, side->a);
        posed.b = pose_point(pose, side->b);
        posed.along = pose_direction(pose, side->along);
        return posed;
    }
    posed.centre = pose_point(pose, side->centre);
    Point a = pose_point(pose, side->a), b = pose_point(pose, side->b);
    Point from = pose_direction(pose, side->from), to = pose_direction(pose, side->to);
    /* A mirrored arc goes round the other way, so its ends change places. */
    posed.a = pose.turned_over ? b : a;
    posed.b = pose.turned_over ? a : b;
    posed.from = pose.turned_over ? to : from;
    posed.to = pose.turned_over ? from : to;
    posed.backwards = side->backwards != pose.turned_over;
    return posed;
}

Point side_start(const Side *side)
{
    return side->backwards ? side->b : side->a;
}

Point side_end(const Side *side)
{
    return side->backwards ? side->a : side->b;
}

/* The direction of travel at the end of a side with the radius vector `from`. */
static Point direction_at(const Side *side, Point from)
{
    if (side->radius == 0) {
        return point_times(side->along, sqrt(side->per_square) * (side->backwards ? -1 : 1));
    }
    double factor = (side->backwards ? -1 : 1) / side->radius;
    return (Point){-from.y * factor, from.x * factor};
}

Point side_start_direction(const Side *side)
{
    return direction_at(side, side->backwards ? side->to : side->from);
}

Point side_end_direction(const Side *side)
{
    return direction_at(side, side->backwards ? side->from : side->to);
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
    double rest = sqrt(fmax(0, (side->radius - half) * (side->radius + half)));
    double sagitta = side->major ? side->radius + rest : half * half / (side->radius + rest);
    return point_plus(middle, point_times(middle_direction(side), sagitta));
}

double side_sweep(const Side *side)
{
    if (side->radius == 0) {
        return 0;
    }
    double half = point_distance(side->a, side->b) / 2;
    double rest = sqrt(fmax(0, (side->radius - half) * (side->radius + half)));
    return 2 * atan2(half, side->major ? -rest : rest);
}

double side_length(const Side *side)
{
    return side->radius == 0 ? point_length(side->along) : side->radius * side_sweep(side);
}

/* The arc's extreme place in the unit direction d, where the arc faces that way: from the chord's
 * middle and the sagitta, since centre and radius are great numbers for a nearly straight arc. */
static Point arc_extreme(const Side *arc, Point d)
{
    Point out = middle_direction(arc);
    double same = point_dot(out, d);
    if (arc->major || same < 0.5) {
        return point_plus(arc->centre, point_times(d, arc->radius));
    }
    double half = point_distance(arc->a, arc->b) / 2;
    double rest = sqrt(fmax(0, (arc->radius - half) * (arc->radius + half)));
    double across = point_cross(out, d);
    /* 1 - cos, without a difference of near numbers */
    double beyond = half * half / (arc->radius + rest) + rest * across * across / (1 + same);
    Point middle = {arc->a.x + (arc->b.x - arc->a.x) / 2, arc->a.y + (arc->b.y - arc->a.y) / 2};
    double height = point_dot(middle, d) + beyond;
    /* Across d it does no harm in a box to stay at the middle, which lies between the ends. */
    return d.x != 0 ? (Point){height * d.x, middle.y} : (Point){middle.x, height * d.y};
}

Box side_box(const Side *side)
{
    Box box = box_with_point(box_with_point(BOX_EMPTY, side->a), side->b);
    if (side->radius == 0) {
        return box;
    }
    static const Point directions[] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
    for (int i = 0; i < 4; i++) {
        Point faced = point_plus(side->centre, point_times(directions[i], side->radius));
        if (side_faces(side, faced)) {
            box = box_with_point(box, arc_extreme(side, directions[i]));
        }
    }
    return box;
}

static double square_distance(Point a, Point b)
{
    Point d = point_minus(a, b);
    return point_dot(d, d);
}

static double nearest_on_line(const Side *line, Point p, Point *nearest)
{
    double t = point_dot(point_minus(p, line->a), line->along) * line->per_square;
    if (!(t > 0)) {
        *nearest = line->a;
    } else if (t >= 1) {
        *nearest = line->b;
    } else {
        *nearest = point_plus(line->a, point_times(line->along, t));
    }
    return square_distance(p, *nearest);
}

/* The nearer, or with `furthest` the further, of the arc's two ends. */
static double end_of_arc(const Side *arc, Point p, bool furthest, Point *end)
{
    double to_a = square_distance(p, arc->a), to_b = square_distance(p, arc->b);
    bool takes_a = furthest ? to_a >= to_b : to_a <= to_b;
    *end = takes_a ? arc->a : arc->b;
    return takes_a ? to_a : to_b;
}

static double nearest_on_arc(const Side *arc, Point p, Point *nearest)
{
    Point w = point_minus(p, arc->centre);
    double reach = point_length(w);
    if (!(reach > 0) || !side_faces(arc, p)) {
        return end_of_arc(arc, p, false, nearest);
    }
    /* |p - c| - r as the power of p over |p - c| + r, the power taken from the arc's own end. */
    Point e = point_minus(p, arc->a);
    double power = point_dot(e, point_plus(e, point_times(arc->from, 2)));
    double outside = power / (reach + arc->radius);
    *nearest = point_minus(p, point_times(w, outside / reach));
    return outside * outside;
}

double side_nearest_point(const Side *side, Point p, Point *nearest)
{
    return side->radius == 0 ? nearest_on_line(side, p, nearest) : nearest_on_arc(side, p, nearest);
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
            return square_distance(p, opposite);
        }
    }
    return end_of_arc(side, p, true, furthest);
}
