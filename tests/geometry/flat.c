/* flat.c: shapes as GEOS polygons, and random shapes. */
#include "flat.h"

#include <stdlib.h>

void points_add(Points *points, Point p)
{
    if (points->count == points->room) {
        points->room = points->room ? 2 * points->room : 64;
        points->all = realloc(points->all, points->room * sizeof *points->all);
        if (!points->all) {
            abort();
        }
    }
    points->all[points->count++] = p;
}

void points_free(Points *points)
{
    free(points->all);
    *points = (Points){0};
}

/* From `start` to `end`, both turned about the centre by `angle` in all. */
static void flatten_arc(Points *points, Point centre, Point start, double angle, double radius,
                        double chord_error)
{
    double step = 2 * acos(1 - fmin(1, chord_error / radius));
    size_t count = (size_t)ceil(fabs(angle) / step);
    for (size_t i = 0; i < count; i++) {
        double turn = angle * (double)i / (double)count;
        Point w = point_minus(start, centre);
        Point turned = {w.x * cos(turn) - w.y * sin(turn), w.x * sin(turn) + w.y * cos(turn)};
        points_add(points, i ? point_plus(centre, turned) : start);
    }
}

void flatten_side(Points *points, Vertex start, Vertex end, double chord_error)
{
    Point a = {start.x, start.y}, b = {end.x, end.y};
    double s = start.sagitta, half = point_distance(a, b) / 2;
    if (s == 0) {
        points_add(points, a);
        return;
    }
    double radius = fabs((half * half + s * s) / (2 * s));
    /* The inscribed angle's theorem: the whole angle is four times that between chord and half. */
    double angle = 4 * atan2(s, half);
    Point middle = point_times(point_plus(a, b), 0.5);
    Point out = {(b.y - a.y) / (2 * half), -(b.x - a.x) / (2 * half)};
    Point top = point_plus(middle, point_times(out, s));
    Point centre = point_plus(top, point_times(out, s > 0 ? -radius : radius));
    flatten_arc(points, centre, a, angle, radius, chord_error);
}

static GEOSCoordSequence *sequence(const Points *points, bool closed)
{
    unsigned size = (unsigned)(points->count + (closed ? 1 : 0));
    GEOSCoordSequence *coordinates = GEOSCoordSeq_create(size, 2);
    for (unsigned i = 0; i < size; i++) {
        Point p = points->all[i % points->count];
        GEOSCoordSeq_setXY(coordinates, i, p.x, p.y);
    }
    return coordinates;
}

GEOSGeometry *flat_point(Point p)
{
    return GEOSGeom_createPointFromXY(p.x, p.y);
}

static GEOSGeometry *flat_ring(const Points *points)
{
    return GEOSGeom_createLinearRing(sequence(points, true));
}

static GEOSGeometry *flat_outline(const Outline *outline, Pose pose, double chord_error)
{
    size_t rings = outline_ring_count(outline);
    GEOSGeometry **flat = malloc(rings * sizeof *flat);
    for (size_t ring = 0; ring < rings; ring++) {
        Points points = {0};
        size_t count;
        const Vertex *v = outline_ring(outline, ring, &count);
        for (size_t i = 0; i < count; i++) {
            flatten_side(&points, v[i], v[(i + 1) % count], chord_error);
        }
        for (size_t i = 0; i < points.count; i++) {
            points.all[i] = pose_point(pose, points.all[i]);
        }
        flat[ring] = flat_ring(&points);
        points_free(&points);
    }
    GEOSGeometry *polygon = GEOSGeom_createPolygon(flat[0], flat + 1, (unsigned)(rings - 1));
    free(flat);
    return polygon;
}

/* A core that is none, as a rectangle with half sizes, grown. */
static GEOSGeometry *flat_rounded(const Shape *shape, double growth, double chord_error)
{
    double x = shape->core == CORE_POINT ? 0 : shape->half_length;
    double y = shape->core == CORE_RECTANGLE ? shape->half_width : 0;
    const Point corners[] = {{x, -y}, {x, y}, {-x, y}, {-x, -y}};
    Points points = {0};
    for (int i = 0; i < 4; i++) {
        if (growth == 0) {
            points_add(&points, corners[i]);
            continue;
        }
        const Point ways[] = {{0, -growth}, {growth, 0}, {0, growth}, {-growth, 0}};
        flatten_arc(&points, corners[i], point_plus(corners[i], ways[i]), M_PI / 2, growth,
                    chord_error);
        points_add(&points, point_plus(corners[i], ways[(i + 1) % 4]));
    }
    for (size_t i = 0; i < points.count; i++) {
        points.all[i] = pose_point(shape->pose, points.all[i]);
    }
    GEOSGeometry *polygon = GEOSGeom_createPolygon(flat_ring(&points), NULL, 0);
    points_free(&points);
    return polygon;
}

GEOSGeometry *flat_core(const Shape *shape, double chord_error)
{
    switch (shape->core) {
    case CORE_POINT:
        return flat_point((Point){shape->pose.x, shape->pose.y});
    case CORE_SEGMENT: {
        Point ends[] = {pose_point(shape->pose, (Point){-shape->half_length, 0}),
                        pose_point(shape->pose, (Point){shape->half_length, 0})};
        Points points = {ends, 2, 2};
        return GEOSGeom_createLineString(sequence(&points, false));
    }
    case CORE_RECTANGLE:
        return flat_rounded(shape, 0, chord_error);
    case CORE_OUTLINE:
    default:
        return flat_outline(shape->outline, shape->pose, chord_error);
    }
}

GEOSGeometry *flat_shape(const Shape *shape, double chord_error)
{
    if (shape->growth == 0 || shape->core == CORE_OUTLINE) {
        return flat_core(shape, chord_error);
    }
    return flat_rounded(shape, shape->growth, chord_error);
}

double random_between(Random *random, double low, double high)
{
    /* SplitMix64 (Steele, Lea and Flood 2014, from memory). */
    uint64_t z = random->state += UINT64_C(0x9E3779B97F4A7C15);
    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    return low + (high - low) * (double)((z ^ (z >> 31)) >> 11) / 9007199254740992.0;
}

size_t random_below(Random *random, size_t count)
{
    return (size_t)random_between(random, 0, (double)count);
}

static size_t random_ring(Random *random, OutlineKind kind, Point centre, Vertex *vertices)
{
    size_t span = kind.sides_most - kind.sides_least + 1;
    size_t count = kind.sides_least + random_below(random, span);
    double radius = random_between(random, kind.radius_least, kind.radius_most);
    double start = random_between(random, 0, 2 * M_PI);
    for (size_t i = 0; i < count; i++) {
        double step = ((double)i + random_between(random, -0.35, 0.35)) / (double)count;
        double r = radius * random_between(random, 0.5, 1), angle = start + step * 2 * M_PI;
        vertices[i] = (Vertex){centre.x + r * cos(angle), centre.y + r * sin(angle), 0};
    }
    for (size_t i = 0; i < count; i++) {
        if (random_between(random, 0, 1) >= kind.arcs) {
            continue;
        }
        Vertex next = vertices[(i + 1) % count];
        double chord = hypot(next.x - vertices[i].x, next.y - vertices[i].y);
        double height = chord * random_between(random, 0.02, 0.7);
        bool inwards = random_between(random, 0, 1) < kind.inwards;
        vertices[i].sagitta = inwards ? -height / 2 : height;
    }
    return count;
}

Outline *random_outline(Random *random, OutlineKind kind)
{
    Vertex vertices[512];
    for (;;) {
        size_t starts[4] = {0, 0, 0, 0}, rings = 1;
        starts[1] = random_ring(random, kind, (Point){0, 0}, vertices);
        if (random_between(random, 0, 1) < kind.openings) {
            OutlineKind small = kind;
            small.sides_least = 3;
            small.sides_most = 6;
            small.radius_least = kind.radius_least * 0.1;
            small.radius_most = kind.radius_most * 0.3;
            Point at = {random_between(random, -kind.radius_least, kind.radius_least) / 3,
                        random_between(random, -kind.radius_least, kind.radius_least) / 3};
            starts[2] = starts[1] + random_ring(random, small, at, vertices + starts[1]);
            rings = 2;
        }
        Outline *outline = outline_new(vertices, starts, rings, NULL);
        if (outline) {
            return outline;
        }
    }
}

Pose random_pose(Random *random, double spread)
{
    return pose_from_model(length_from_mm(random_between(random, -spread, spread)),
                           length_from_mm(random_between(random, -spread, spread)),
                           angle_from_degrees(random_between(random, 0, 360)),
                           random_between(random, 0, 1) < 0.5);
}

Shape random_shape(Random *random, ShapeCore core, const Outline *outline, double growth_most)
{
    Shape shape = {.core = core, .pose = random_pose(random, 0)};
    if (random_between(random, 0, 1) < 0.7) {
        shape.growth = random_between(random, 0.05, growth_most);
    }
    shape.half_length = random_between(random, 0.3, 5);
    shape.half_width = random_between(random, 0.3, 5);
    shape.outline = core == CORE_OUTLINE ? outline : NULL;
    return shape;
}
