#include "drawing/shape-path.h"

/* Points nearer than this are one, mm. */
#define SAME 1e-7

/* One side of a ring, moved outwards. */
typedef struct Side {
    Vertex from;
    Point to;
    bool arc;
    Point centre;
    double radius; /* 0: the growth has eaten it */
} Side;

/* How one side goes over into the next. */
typedef struct Join {
    Point end, start; /* of the one, of the other */
    double sagitta;   /* of the rounded corner between them, 0 for none */
} Join;

static Side side_at(const Vertex *ring, size_t count, size_t i, double growth)
{
    const Vertex *a = &ring[i % count], *b = &ring[(i + 1) % count];
    Side side = {*a, {b->x, b->y}, a->sagitta != 0, {0, 0}, 1};
    if (side.arc) {
        side.centre = arc_centre(side.from, side.to, &side.radius);
        double radius = side.radius + (a->sagitta > 0 ? growth : -growth);
        double factor = radius > SAME ? radius / side.radius : 0;
        side.from.x = side.centre.x + (a->x - side.centre.x) * factor;
        side.from.y = side.centre.y + (a->y - side.centre.y) * factor;
        side.to.x = side.centre.x + (b->x - side.centre.x) * factor;
        side.to.y = side.centre.y + (b->y - side.centre.y) * factor;
        side.from.sagitta = a->sagitta * factor;
        side.radius = factor > 0 ? radius : 0;
        return side;
    }
    /* Rings have the area to their left, so outwards is to the right of the way. */
    Point way = point_minus(side.to, (Point){a->x, a->y});
    double length = point_length(way);
    Point off = {way.y / length * growth, -way.x / length * growth};
    side.from.x += off.x;
    side.from.y += off.y;
    side.to = point_plus(side.to, off);
    return side;
}

/* The direction of a side at its beginning or end. */
static Point side_way(const Side *side, bool at_end)
{
    Point from = {side->from.x, side->from.y};
    if (!side->arc)
        return point_minus(side->to, from);
    Point spoke = point_minus(at_end ? side->to : from, side->centre);
    double turn = side->from.sagitta > 0 ? 1 : -1;
    return (Point){-spoke.y * turn, spoke.x * turn};
}

/* The two places, or one twice, where two sides' whole lines or circles meet; false for none. */
static bool line_meets_line(const Side *a, const Side *b, Point found[2])
{
    Point u = side_way(a, false), v = side_way(b, false);
    double cross = point_cross(u, v);
    if (fabs(cross) < 1e-12 * point_length(u) * point_length(v))
        return false;
    Point between = {b->from.x - a->from.x, b->from.y - a->from.y};
    double t = point_cross(between, v) / cross;
    found[0] = found[1] = (Point){a->from.x + u.x * t, a->from.y + u.y * t};
    return true;
}

static bool line_meets_circle(const Side *line, const Side *arc, Point found[2])
{
    Point way = side_way(line, false);
    double length = point_length(way);
    way = point_times(way, 1 / length);
    Point from = {line->from.x, line->from.y};
    double middle = point_dot(point_minus(arc->centre, from), way);
    Point foot = point_plus(from, point_times(way, middle));
    double off = point_distance(foot, arc->centre);
    if (off > arc->radius)
        return false;
    double half = sqrt(arc->radius * arc->radius - off * off);
    found[0] = point_plus(foot, point_times(way, half));
    found[1] = point_minus(foot, point_times(way, half));
    return true;
}

static bool circle_meets_circle(const Side *a, const Side *b, Point found[2])
{
    Point way = point_minus(b->centre, a->centre);
    double distance = point_length(way);
    if (distance < SAME || distance > a->radius + b->radius ||
        distance < fabs(a->radius - b->radius))
        return false;
    double along =
        (distance * distance + a->radius * a->radius - b->radius * b->radius) / (2 * distance);
    double half = sqrt(fmax(0, a->radius * a->radius - along * along));
    way = point_times(way, 1 / distance);
    Point foot = point_plus(a->centre, point_times(way, along));
    found[0] = (Point){foot.x - way.y * half, foot.y + way.x * half};
    found[1] = (Point){foot.x + way.y * half, foot.y - way.x * half};
    return true;
}

static bool sides_meet(const Side *a, const Side *b, Point near, Point *place)
{
    Point found[2];
    bool meet = a->arc && b->arc ? circle_meets_circle(a, b, found)
                : a->arc         ? line_meets_circle(b, a, found)
                : b->arc         ? line_meets_circle(a, b, found)
                                 : line_meets_line(a, b, found);
    if (meet)
        *place =
            point_distance(found[0], near) <= point_distance(found[1], near) ? found[0] : found[1];
    return meet;
}

static Join join_sides(const Side *a, const Side *b, Point corner, double growth)
{
    Join join = {a->to, {b->from.x, b->from.y}, 0};
    if (point_distance(join.end, join.start) < SAME) {
        join.start = join.end;
        return join;
    }
    Point u = side_way(a, true), v = side_way(b, false);
    if (point_cross(u, v) > 0) {
        /* An outer corner is rounded about the corner itself, by less than half a circle. */
        double half = point_distance(join.end, join.start) / 2;
        join.sagitta = growth - sqrt(fmax(0, growth * growth - half * half));
        return join;
    }
    Point place;
    if (sides_meet(a, b, corner, &place))
        join.end = join.start = place;
    return join;
}

/* The sagitta of a side that has been cut to lie between two other places of its own circle. */
static double cut_sagitta(const Side *side, Point from, Point to)
{
    if (!side->arc)
        return 0;
    Point a = point_minus(from, side->centre), b = point_minus(to, side->centre);
    double sweep = atan2(point_cross(a, b), point_dot(a, b));
    if (side->from.sagitta > 0 && sweep < 0)
        sweep += 2 * M_PI;
    if (side->from.sagitta < 0 && sweep > 0)
        sweep -= 2 * M_PI;
    double rise = side->radius * (1 - cos(sweep / 2));
    return side->from.sagitta > 0 ? rise : -rise;
}

/* A ring's vertex on the sheet. A pose that turns over mirrors, so arcs go round the other way. */
static Vertex on_sheet(Point p, double sagitta, Pose pose, ViewMap map)
{
    Point place = view_point(map, pose_point(pose, p));
    return (Vertex){place.x, place.y, (pose.turned_over ? -sagitta : sagitta) * map.scale};
}

static size_t next_side(const Vertex *ring, size_t count, size_t i, double growth)
{
    for (size_t tried = 0; tried < count; tried++) {
        i = (i + 1) % count;
        if (side_at(ring, count, i, growth).radius > 0)
            break;
    }
    return i;
}

static void add_grown_ring(Drawing *drawing, const Vertex *ring, size_t count, const Shape *shape,
                           ViewMap map)
{
    double growth = shape->growth;
    size_t first = next_side(ring, count, count - 1, growth);
    size_t i = first;
    Side side = side_at(ring, count, i, growth);
    /* The first side's beginning is known only from the last side that is left. */
    size_t last = i;
    for (size_t j = next_side(ring, count, i, growth); j != first;
         j = next_side(ring, count, j, growth))
        last = j;
    Side before = side_at(ring, count, last, growth);
    Point start = join_sides(&before, &side, (Point){ring[first].x, ring[first].y}, growth).start;
    do {
        size_t after = next_side(ring, count, i, growth);
        Side next = side_at(ring, count, after, growth);
        Join join = join_sides(&side, &next, (Point){ring[after].x, ring[after].y}, growth);
        drawing_path_add(drawing,
                         on_sheet(start, cut_sagitta(&side, start, join.end), shape->pose, map));
        if (point_distance(join.end, join.start) >= SAME)
            drawing_path_add(drawing, on_sheet(join.end, join.sagitta, shape->pose, map));
        start = join.start;
        side = next;
        i = after;
    } while (i != first);
}

static void draw_outline(Drawing *drawing, LineKind line, const Shape *shape, ViewMap map)
{
    for (size_t r = 0; r < outline_ring_count(shape->outline); r++) {
        size_t count;
        const Vertex *ring = outline_ring(shape->outline, r, &count);
        drawing_path_begin(drawing, line);
        if (shape->growth > 0) {
            add_grown_ring(drawing, ring, count, shape, map);
        } else {
            for (size_t i = 0; i < count; i++)
                drawing_path_add(drawing, on_sheet((Point){ring[i].x, ring[i].y}, ring[i].sagitta,
                                                   shape->pose, map));
        }
        drawing_path_end(drawing, true);
    }
}

/* Adds vertices given in the shape's own coordinates as one closed path. */
static void draw_own(Drawing *drawing, LineKind line, const Shape *shape, ViewMap map,
                     const Vertex *vertices, size_t count)
{
    drawing_path_begin(drawing, line);
    for (size_t i = 0; i < count; i++)
        drawing_path_add(drawing, on_sheet((Point){vertices[i].x, vertices[i].y},
                                           vertices[i].sagitta, shape->pose, map));
    drawing_path_end(drawing, true);
}

static void draw_obround(Drawing *drawing, LineKind line, const Shape *shape, ViewMap map)
{
    double l = shape->half_length, g = shape->growth;
    Vertex vertices[] = {{l, -g, g}, {l, g, 0}, {-l, g, g}, {-l, -g, 0}};
    draw_own(drawing, line, shape, map, vertices, 4);
}

static void draw_rectangle(Drawing *drawing, LineKind line, const Shape *shape, ViewMap map)
{
    double l = shape->half_length, w = shape->half_width, g = shape->growth;
    if (g <= 0) {
        Vertex corners[] = {{l, -w, 0}, {l, w, 0}, {-l, w, 0}, {-l, -w, 0}};
        draw_own(drawing, line, shape, map, corners, 4);
        return;
    }
    double round = g * (1 - cos(M_PI / 4)); /* the sagitta of a quarter of a circle */
    Vertex vertices[] = {{l, -w - g, round}, {l + g, -w, 0}, {l + g, w, round},   {l, w + g, 0},
                         {-l, w + g, round}, {-l - g, w, 0}, {-l - g, -w, round}, {-l, -w - g, 0}};
    draw_own(drawing, line, shape, map, vertices, 8);
}

void shape_path_draw(Drawing *drawing, LineKind line, const Shape *shape, ViewMap map)
{
    ShapeCore core = shape->core;
    if (core == CORE_RECTANGLE && shape->half_width == 0)
        core = CORE_SEGMENT;
    if (core == CORE_SEGMENT && shape->half_length == 0)
        core = CORE_POINT;
    switch (core) {
    case CORE_POINT:
        drawing_circle(drawing, line, view_point(map, (Point){shape->pose.x, shape->pose.y}),
                       shape->growth * map.scale);
        break;
    case CORE_SEGMENT:
        draw_obround(drawing, line, shape, map);
        break;
    case CORE_RECTANGLE:
        draw_rectangle(drawing, line, shape, map);
        break;
    case CORE_OUTLINE:
        draw_outline(drawing, line, shape, map);
        break;
    }
}
