/* solid.c: solids made, boxed and asked about a place. */
#include "geometry/solid-private.h"

#include "geometry/length.h"

Solid solid_round(Space from, Space to, double diameter_from, double diameter_to)
{
    Space axis = space_minus(to, from);
    double length = space_length(axis);
    Space normal = space_times(axis, 1 / length);
    /* Any direction square to the axis, from the one of the three that is furthest from it. */
    Space aside = fabs(normal.x) < 0.6 ? (Space){1, 0, 0} : (Space){0, 1, 0};
    Space up = space_cross(normal, aside);
    up = space_times(up, 1 / space_length(up));
    return (Solid){
        .core = CORE_POINT,
        .top = length,
        .growth_bottom = diameter_from / 2,
        .growth_top = diameter_to / 2,
        .placement = {from, space_cross(up, normal), up, normal},
    };
}

Solid solid_of_shape(const Shape *shape, const Placement *face, double bottom, double top)
{
    const Pose *pose = &shape->pose;
    Point along = pose_direction(*pose, (Point){1, 0}), up = pose_direction(*pose, (Point){0, 1});
    Placement on_face = {{pose->x, pose->y, 0}, {along.x, along.y, 0}, {up.x, up.y, 0}, {0, 0, 1}};
    return (Solid){
        .core = shape->core,
        .half_length = shape->half_length,
        .half_width = shape->half_width,
        .outline = shape->outline,
        .bottom = bottom,
        .top = top,
        .growth_bottom = shape->growth,
        .growth_top = shape->growth,
        .placement = placement_after(face, &on_face),
    };
}

static bool number_good(double number, double least)
{
    return number >= least && number <= length_to_mm(LENGTH_GREATEST);
}

static bool place_good(Space p)
{
    double least = -length_to_mm(LENGTH_GREATEST);
    return number_good(p.x, least) && number_good(p.y, least) && number_good(p.z, least);
}

static bool directions_good(const Placement *placement)
{
    const Space *along = &placement->along, *up = &placement->up, *normal = &placement->normal;
    double worst = fabs(space_dot(*along, *along) - 1);
    worst = fmax(worst, fabs(space_dot(*up, *up) - 1));
    worst = fmax(worst, fabs(space_dot(*normal, *normal) - 1));
    worst = fmax(worst, fabs(space_dot(*along, *up)));
    worst = fmax(worst, fabs(space_dot(*along, *normal)));
    worst = fmax(worst, fabs(space_dot(*up, *normal)));
    /* fmax passes over a NaN, so the sum is asked too. */
    Space sum = space_plus(space_plus(*along, *up), *normal);
    return worst < 1e-9 && isfinite(sum.x + sum.y + sum.z);
}

bool solid_check(const Solid *solid, Error *error)
{
    double least = -length_to_mm(LENGTH_GREATEST);
    if (!place_good(solid->placement.origin)) {
        return error_set(error, ERROR_GEOMETRY, NULL,
                         "a place is not a number, or more than 10,000 mm away");
    }
    if (!directions_good(&solid->placement)) {
        return error_set(error, ERROR_GEOMETRY, NULL,
                         "a solid's directions are not square to each other");
    }
    if (!number_good(solid->bottom, least) || !number_good(solid->top, solid->bottom)) {
        return error_set(error, ERROR_GEOMETRY, NULL,
                         "a solid's heights are not numbers, or its bottom is above its top");
    }
    bool long_one = solid->core == CORE_SEGMENT || solid->core == CORE_RECTANGLE;
    if (!number_good(solid->growth_bottom, 0) || !number_good(solid->growth_top, 0) ||
        (long_one && !number_good(solid->half_length, 0)) ||
        (solid->core == CORE_RECTANGLE && !number_good(solid->half_width, 0))) {
        return error_set(error, ERROR_GEOMETRY, NULL,
                         "a length, width or radius is not a number from 0 to 10,000 mm");
    }
    if (solid->core == CORE_OUTLINE && !solid->outline) {
        return error_set(error, ERROR_GEOMETRY, NULL, "an outline is missing");
    }
    return true;
}

/* Half a size, on the side that `way` points to; the middle when it points to neither. */
static double on_side(double half, double way)
{
    return way > 0 ? half : way < 0 ? -half : 0;
}

Space solid_support(const Solid *solid, Space way)
{
    double flat = sqrt(way.x * way.x + way.y * way.y);
    double at_bottom = solid->bottom * way.z + solid->growth_bottom * flat;
    double at_top = solid->top * way.z + solid->growth_top * flat;
    bool top = at_top > at_bottom;
    double growth = top ? solid->growth_top : solid->growth_bottom;
    Space p = {0, 0, top ? solid->top : solid->bottom};
    if (solid->core != CORE_POINT) {
        p.x = on_side(solid->half_length, way.x);
    }
    if (solid->core == CORE_RECTANGLE) {
        p.y = on_side(solid->half_width, way.y);
    }
    if (flat > 0) {
        p.x += growth * (way.x / flat);
        p.y += growth * (way.y / flat);
    }
    return p;
}

/* How far the solid reaches along `way` from its own origin, in its own coordinates. */
static double solid_reach(const Solid *solid, Space way)
{
    if (solid->core != CORE_OUTLINE) {
        return space_dot(solid_support(solid, way), way);
    }
    double flat = sqrt(way.x * way.x + way.y * way.y);
    double reach =
        flat > 0 ? flat * outline_reach(solid->outline, (Point){way.x / flat, way.y / flat}) : 0;
    return reach + greater_of(solid->bottom * way.z + solid->growth_bottom * flat,
                              solid->top * way.z + solid->growth_top * flat);
}

SpaceBox solid_box_in(const Solid *solid, const Placement *placement)
{
    Placement own = placement_own(placement, &solid->placement);
    double reaches[6];
    for (int i = 0; i < 6; i++) {
        double sign = i % 2 ? -1 : 1;
        Space way = {i / 2 == 0 ? sign : 0, i / 2 == 1 ? sign : 0, i / 2 == 2 ? sign : 0};
        reaches[i] =
            space_dot(own.origin, way) + solid_reach(solid, placement_own_direction(&own, way));
    }
    return (SpaceBox){{-reaches[1], -reaches[3], -reaches[5]},
                      {reaches[0], reaches[2], reaches[4]}};
}

SpaceBox solid_box(const Solid *solid)
{
    const Placement plain = PLACEMENT_IDENTITY;
    return solid_box_in(solid, &plain);
}

/* The solid's growth at one of its own heights, within bottom and top. */
static double growth_at(const Solid *solid, double z)
{
    double height = solid->top - solid->bottom;
    if (!(height > 0)) {
        return greater_of(solid->growth_bottom, solid->growth_top);
    }
    double part = greater_of(0, lesser_of(1, (z - solid->bottom) / height));
    return solid->growth_bottom + (solid->growth_top - solid->growth_bottom) * part;
}

bool solid_contains(const Solid *solid, Space p)
{
    Space own = placement_own_point(&solid->placement, p);
    if (own.z < solid->bottom - TOUCH || own.z > solid->top + TOUCH) {
        return false;
    }
    Shape shape = {solid->core,        POSE_IDENTITY,     growth_at(solid, own.z),
                   solid->half_length, solid->half_width, solid->outline};
    return shape_contains(&shape, (Point){own.x, own.y});
}
