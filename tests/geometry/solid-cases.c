#include "solid-cases.h"

static Space random_unit(Random *random)
{
    for (;;) {
        Space d = {random_between(random, -1, 1), random_between(random, -1, 1),
                   random_between(random, -1, 1)};
        double length = space_length(d);
        if (length > 0.1 && length < 1) {
            return space_times(d, 1 / length);
        }
    }
}

Placement random_placement(Random *random, double spread)
{
    Space normal = random_unit(random), along;
    do {
        Space d = random_unit(random);
        along = space_minus(d, space_times(normal, space_dot(d, normal)));
    } while (space_length(along) < 0.1);
    along = space_times(along, 1 / space_length(along));
    Space up = space_cross(normal, along);
    return (Placement){{random_between(random, -spread, spread),
                        random_between(random, -spread, spread),
                        random_between(random, -spread, spread)},
                       along,
                       random_below(random, 2) ? up : space_times(up, -1),
                       normal};
}

static double sometimes_none(Random *random, double most)
{
    return random_below(random, 5) ? random_between(random, 0, most) : 0;
}

Solid random_solid(Random *random, double spread)
{
    Solid solid = {
        .core = (ShapeCore)random_below(random, 3),
        .half_length = sometimes_none(random, 20),
        .half_width = sometimes_none(random, 20),
        .bottom = random_between(random, -20, 20),
        .growth_bottom = sometimes_none(random, 10),
        .growth_top = sometimes_none(random, 10),
        .placement = random_placement(random, spread),
    };
    solid.top = solid.bottom + sometimes_none(random, 40);
    if (random_below(random, 2)) {
        solid.growth_top = solid.growth_bottom;
    }
    return solid;
}

static double core_half_length(const Solid *solid)
{
    return solid->core == CORE_POINT ? 0 : solid->half_length;
}

static double core_half_width(const Solid *solid)
{
    return solid->core == CORE_RECTANGLE ? solid->half_width : 0;
}

/* The place on the segment a, b nearest to p. */
static Point nearest_on_segment(Point p, Point a, Point b)
{
    Point d = point_minus(b, a);
    double square = point_dot(d, d);
    double part = square > 0 ? point_dot(point_minus(p, a), d) / square : 0;
    return point_plus(a, point_times(d, fmin(1, fmax(0, part))));
}

double distance_to_solid(const Solid *solid, Space p, Space *nearest)
{
    Space own = placement_own_point(&solid->placement, p);
    double half_length = core_half_length(solid), half_width = core_half_width(solid);
    Point core = {fmin(half_length, fmax(-half_length, own.x)),
                  fmin(half_width, fmax(-half_width, own.y))};
    Point out = point_minus((Point){own.x, own.y}, core);
    double from_core = point_length(out);
    Point at = {from_core, own.z};
    const Point corners[] = {{0, solid->bottom},
                             {solid->growth_bottom, solid->bottom},
                             {solid->growth_top, solid->top},
                             {0, solid->top}};
    double height = solid->top - solid->bottom;
    double part = height > 0 ? (own.z - solid->bottom) / height : 0;
    double growth = solid->growth_bottom + part * (solid->growth_top - solid->growth_bottom);
    double best = INFINITY;
    Point where = at;
    if (height > 0 && part >= 0 && part <= 1 && from_core <= growth) {
        best = 0;
    }
    for (int i = 0; i < 3 && best > 0; i++) {
        Point place = nearest_on_segment(at, corners[i], corners[i + 1]);
        if (point_distance(place, at) < best) {
            best = point_distance(place, at);
            where = place;
        }
    }
    Point flat = core;
    if (from_core > 0) {
        flat = point_plus(core, point_times(out, where.x / from_core));
    }
    *nearest = placement_point(&solid->placement, (Space){flat.x, flat.y, where.y});
    return best;
}

double reach_of_solid(const Solid *solid, Space way)
{
    Space own = placement_own_direction(&solid->placement, way);
    double half_length = core_half_length(solid), half_width = core_half_width(solid);
    double flat = sqrt(own.x * own.x + own.y * own.y), reach = -INFINITY;
    for (int corner = 0; corner < 8; corner++) {
        double x = corner & 1 ? half_length : -half_length;
        double y = corner & 2 ? half_width : -half_width;
        double z = corner & 4 ? solid->top : solid->bottom;
        double growth = corner & 4 ? solid->growth_top : solid->growth_bottom;
        reach = fmax(reach, x * own.x + y * own.y + z * own.z + growth * flat);
    }
    return reach + space_dot(solid->placement.origin, way);
}

Space place_on_solid(const Solid *solid, double round, double up, double inwards)
{
    double half_length = core_half_length(solid), half_width = core_half_width(solid);
    /* Eight pieces: a corner's arc and a straight side by turns. */
    double turn = (round - floor(round)) * 4;
    int quarter = (int)turn % 4;
    double part = (turn - floor(turn)) * 2;
    const Point corners[] = {{half_length, half_width},
                             {-half_length, half_width},
                             {-half_length, -half_width},
                             {half_length, -half_width}};
    Point from = corners[quarter], to = corners[(quarter + 1) % 4];
    double angle = M_PI / 2 * (quarter + fmin(1, part));
    Point core = point_plus(from, point_times(point_minus(to, from), fmax(0, part - 1)));
    double z = solid->bottom + up * (solid->top - solid->bottom);
    double growth = solid->growth_bottom + up * (solid->growth_top - solid->growth_bottom);
    double keep = up <= 0 || up >= 1 ? 1 - inwards : 1;
    Space own = {keep * (core.x + growth * cos(angle)), keep * (core.y + growth * sin(angle)), z};
    return placement_point(&solid->placement, own);
}
