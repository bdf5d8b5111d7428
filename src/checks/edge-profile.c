#include "checks/edge-profile.h"

typedef struct Walk {
    EdgeProfile *profile;
    const Vertex *ring;
    size_t count;
    bool mirrored;
} Walk;

/* The vertex as (along, inwards), with its sagitta to the side that this leaves it. */
static Vertex seen_along(const Walk *walk, size_t i)
{
    const Vertex *vertex = &walk->ring[i % walk->count];
    Point p = point_minus((Point){vertex->x, vertex->y}, walk->profile->from);
    return (Vertex){point_dot(p, walk->profile->along), point_dot(p, walk->profile->inward),
                    walk->mirrored ? -vertex->sagitta : vertex->sagitta};
}

/* Where the outline crosses the blade at one place along the line. */
typedef struct Crossing {
    bool found;
    double lowest, highest; /* inwards */
    size_t side;            /* that the lowest is on */
} Crossing;

static void add_crossing(Crossing *crossing, size_t side, double d)
{
    if (!crossing->found || d < crossing->lowest) {
        crossing->lowest = d;
        crossing->side = side;
    }
    if (!crossing->found || d > crossing->highest)
        crossing->highest = d;
    crossing->found = true;
}

typedef struct Arc {
    Point a, chord, centre;
    double sagitta, radius;
} Arc;

static Arc arc_of(Vertex start, Vertex end)
{
    Arc arc = {.a = {start.x, start.y}, .sagitta = start.sagitta};
    arc.chord = point_minus((Point){end.x, end.y}, arc.a);
    double length = point_length(arc.chord), half = length / 2;
    double radius = (half * half + arc.sagitta * arc.sagitta) / (2 * arc.sagitta);
    Point right = {arc.chord.y / length, -arc.chord.x / length};
    Point middle = point_plus(arc.a, point_times(arc.chord, 0.5));
    arc.centre = point_plus(middle, point_times(right, arc.sagitta - radius));
    arc.radius = fabs(radius);
    return arc;
}

/* A point of the circle is on the arc when it lies on the arc's side of the chord. The circle of a
 * very flat arc is so large that its points are known to a nanometre and no better. */
static bool is_on_arc(const Arc *arc, Point p)
{
    double beyond = point_cross(arc->chord, point_minus(p, arc->a)) / point_length(arc->chord);
    return (arc->sagitta > 0 ? beyond : -beyond) <= 1e-6;
}

static void cross_arc(const Arc *arc, size_t side, double s, Crossing *crossing)
{
    double off = s - arc->centre.x, square = arc->radius * arc->radius - off * off;
    if (square < 0)
        return;
    for (int way = -1; way <= 1; way += 2) {
        Point p = {s, arc->centre.y + way * sqrt(square)};
        if (is_on_arc(arc, p))
            add_crossing(crossing, side, p.y);
    }
}

static void cross_line(Vertex start, Vertex end, size_t side, double s, Crossing *crossing)
{
    double low = fmin(start.x, end.x), high = fmax(start.x, end.x);
    if (s < low || s > high)
        return;
    double part = high > low ? (s - start.x) / (end.x - start.x) : 0;
    add_crossing(crossing, side, start.y + (end.y - start.y) * part);
    if (high == low)
        add_crossing(crossing, side, end.y);
}

static Crossing cross(const Walk *walk, double s)
{
    Crossing crossing = {.found = false};
    for (size_t i = 0; i < walk->count; i++) {
        Vertex start = seen_along(walk, i), end = seen_along(walk, i + 1);
        if (start.sagitta == 0) {
            cross_line(start, end, i, s, &crossing);
        } else {
            Arc arc = arc_of(start, end);
            cross_arc(&arc, i, s, &crossing);
        }
    }
    return crossing;
}

static Point place_of(const EdgeProfile *profile, double s, double d)
{
    return point_plus(profile->from,
                      point_plus(point_times(profile->along, s), point_times(profile->inward, d)));
}

typedef void (*PlaceVisit)(EdgeProfile *profile, double s, double d);

/* The places of a side where it can lie furthest in or out: its ends, and where an arc runs along
 * the line. */
static void each_extreme(const Walk *walk, size_t side, PlaceVisit visit)
{
    Vertex start = seen_along(walk, side), end = seen_along(walk, side + 1);
    Point places[4] = {{start.x, start.y}, {end.x, end.y}};
    int count = 2;
    if (start.sagitta != 0) {
        Arc arc = arc_of(start, end);
        for (int way = -1; way <= 1; way += 2) {
            Point p = {arc.centre.x, arc.centre.y + way * arc.radius};
            if (is_on_arc(&arc, p))
                places[count++] = p;
        }
    }
    for (int i = 0; i < count; i++)
        if (places[i].x >= 0 && places[i].x <= walk->profile->length)
            visit(walk->profile, places[i].x, places[i].y);
}

static void widen(EdgeProfile *profile, double s, double d)
{
    if (d < profile->least) {
        profile->least = d;
        profile->outermost = place_of(profile, s, d);
    }
    profile->top = fmax(profile->top, d);
}

static void move_in(EdgeProfile *profile, double s, double d)
{
    if (d > profile->most) {
        profile->most = d;
        profile->innermost = place_of(profile, s, d);
    }
}

/* From the edge at one end of the line to the edge at its other: the outside ring goes round
 * counter-clockwise, so along the edge it goes the line's way, seen with the blade to the left. */
static void follow_edge(const Walk *walk, const Crossing *begin, const Crossing *end)
{
    const Crossing *first = walk->mirrored ? end : begin, *last = walk->mirrored ? begin : end;
    move_in(walk->profile, 0, begin->lowest);
    move_in(walk->profile, walk->profile->length, end->lowest);
    for (size_t side = first->side;; side = (side + 1) % walk->count) {
        each_extreme(walk, side, move_in);
        if (side == last->side)
            return;
    }
}

bool edge_profile(const Part *part, const Outline *outline, EdgeProfile *profile)
{
    const Bevel *bevel = &part->bevel;
    *profile = (EdgeProfile){.from = {length_to_mm(bevel->from.x), length_to_mm(bevel->from.y)},
                             .least = INFINITY,
                             .most = -INFINITY,
                             .top = -INFINITY};
    Point to = {length_to_mm(bevel->to.x), length_to_mm(bevel->to.y)};
    profile->length = point_distance(profile->from, to);
    if (bevel->angle <= 0 || part->thickness <= 0 || profile->length <= 0)
        return false;
    profile->along = point_times(point_minus(to, profile->from), 1 / profile->length);
    profile->inward = (Point){-profile->along.y, profile->along.x};
    Point middle = point_minus(outline_centroid(outline), profile->from);
    Walk walk = {.profile = profile, .mirrored = point_dot(middle, profile->inward) < 0};
    if (walk.mirrored)
        profile->inward = point_times(profile->inward, -1);
    walk.ring = outline_ring(outline, 0, &walk.count);
    Crossing begin = cross(&walk, 0), end = cross(&walk, profile->length);
    if (!begin.found || !end.found)
        return false;
    widen(profile, 0, begin.lowest);
    widen(profile, 0, begin.highest);
    widen(profile, profile->length, end.lowest);
    widen(profile, profile->length, end.highest);
    for (size_t side = 0; side < walk.count; side++)
        each_extreme(&walk, side, widen);
    follow_edge(&walk, &begin, &end);
    return true;
}

const Part *bevelled_part(const Placed *placed, const Feature *station, EdgeProfile *profile)
{
    const Record *face = placed_record(placed, station->face);
    const Record *record = placed_record(placed, station->id);
    const Record *part = record ? placed_record(placed, record->station.part) : NULL;
    bool inclined = face && face->kind == RECORD_FACE && face->face.kind == FACE_INCLINED;
    if (!inclined || !part || part->kind != RECORD_PART)
        return NULL;
    return edge_profile(&part->part, station->shape.outline, profile) ? &part->part : NULL;
}

Shape bevelled_area(const Feature *station, const EdgeProfile *profile, double height)
{
    Point middle =
        point_plus(profile->from, point_plus(point_times(profile->along, profile->length / 2),
                                             point_times(profile->inward, height / 2)));
    Pose own = {middle.x, middle.y, profile->along.x, profile->along.y, false};
    return shape_rectangle(pose_after(station->shape.pose, own), profile->length, height, 0);
}
