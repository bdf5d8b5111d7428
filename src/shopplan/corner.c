#include "shopplan/corner.h"

/* The way a side runs at its beginning or its end, of length 1. An arc of height s over a chord of
 * length c turns by 2 atan(2 s / c) from the chord to its end, the other way at its beginning. */
static Point side_way(Vertex from, Vertex to, bool at_end)
{
    Point chord = {to.x - from.x, to.y - from.y};
    double length = point_length(chord);
    chord = point_times(chord, 1 / length);
    double turn = 2 * atan2(2 * from.sagitta, length) * (at_end ? 1 : -1);
    double c = cos(turn), s = sin(turn);
    return (Point){c * chord.x - s * chord.y, s * chord.x + c * chord.y};
}

static double arc_radius(Vertex from, Vertex to)
{
    double half = hypot(to.x - from.x, to.y - from.y) / 2;
    double height = fabs(from.sagitta);
    return (half * half + height * height) / (2 * height);
}

/* The least radius that bends a ring towards its area; both the outside and openings have the area
 * on their left. */
static double ring_radius(const Vertex *ring, size_t count, double least)
{
    for (size_t i = 0; i < count; i++) {
        Vertex before = ring[(i + count - 1) % count], here = ring[i],
               after = ring[(i + 1) % count];
        Point in = side_way(before, here, true), out = side_way(here, after, false);
        double turn = atan2(point_cross(in, out), point_dot(in, out));
        if (turn > SMOOTH_TURN * M_PI / 180)
            return 0;
        if (here.sagitta > 0)
            least = fmin(least, arc_radius(here, after));
    }
    return least;
}

double corner_cutter(const Shape *shape)
{
    /* Every corner of a rectangle, and the ends of an obround, are as round as the growth. */
    if (shape->core != CORE_OUTLINE)
        return 2 * shape->growth;
    Box box = outline_box(shape->outline);
    double radius = fmin(box.x1 - box.x0, box.y1 - box.y0) / 2;
    for (size_t r = 0; r < outline_ring_count(shape->outline); r++) {
        size_t count;
        const Vertex *ring = outline_ring(shape->outline, r, &count);
        radius = ring_radius(ring, count, radius);
    }
    return 2 * (radius + shape->growth);
}
