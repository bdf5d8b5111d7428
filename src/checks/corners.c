#include "checks/corners.h"

#include <math.h>

/* radians: less is no turn */
#define STRAIGHT 1e-9

/* The angle that the arc over a chord turns through, by its sagitta: 4 atan(2 s / c). */
static double sweep_of(Vertex start, Vertex end)
{
    double chord = hypot(end.x - start.x, end.y - start.y);
    return 4 * atan2(2 * start.sagitta, chord);
}

static double chord_way(Vertex start, Vertex end)
{
    return atan2(end.y - start.y, end.x - start.x);
}

static Corner arc_of(Vertex start, Vertex end)
{
    double chord = hypot(end.x - start.x, end.y - start.y), sagitta = fabs(start.sagitta);
    /* An arc that goes counter-clockwise bulges to the right of its chord. */
    Point right = {(end.y - start.y) / chord, (start.x - end.x) / chord};
    Point middle = {(start.x + end.x) / 2 + right.x * start.sagitta,
                    (start.y + end.y) / 2 + right.y * start.sagitta};
    return (Corner){middle, (chord * chord / 4 + sagitta * sagitta) / (2 * sagitta),
                    sweep_of(start, end)};
}

static double within_half_turn(double angle)
{
    return angle > M_PI ? angle - 2 * M_PI : angle <= -M_PI ? angle + 2 * M_PI : angle;
}

void each_corner(const Outline *outline, size_t ring, CornerCheck check, void *data)
{
    size_t count;
    const Vertex *vertices = outline_ring(outline, ring, &count);
    Vertex before = vertices[count - 1];
    for (size_t i = 0; i < count; i++) {
        Vertex here = vertices[i], next = vertices[(i + 1) % count];
        double arriving = chord_way(before, here) + sweep_of(before, here) / 2;
        double leaving = chord_way(here, next) - sweep_of(here, next) / 2;
        double turn = within_half_turn(remainder(leaving - arriving, 2 * M_PI));
        Corner sharp = {{here.x, here.y}, 0, turn};
        if (fabs(turn) > STRAIGHT && !check(&sharp, data))
            return;
        if (here.sagitta != 0) {
            Corner arc = arc_of(here, next);
            if (!check(&arc, data))
                return;
        }
        before = here;
    }
}

/* A corner that turns by half a turn or more has no two sides for a fillet to touch. */
static double half_turn(const Corner *corner)
{
    return fmin(fabs(corner->turn) / 2, M_PI / 2 - 1e-6);
}

double corner_metal_left(const Corner *corner, double radius)
{
    if (corner->turn >= 0 || radius <= corner->radius)
        return 0;
    return (radius - corner->radius) * (1 / cos(half_turn(corner)) - 1);
}

double corner_clearance(const Corner *corner, double radius)
{
    if (corner->turn <= 0 || radius <= corner->radius)
        return 0;
    return (radius - corner->radius) * (1 - cos(half_turn(corner)));
}
