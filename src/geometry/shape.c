/* shape.c: shapes made, boxed and asked about a place. */
#include "geometry/shape-private.h"

#include "geometry/length.h"

Shape shape_circle(Point centre, double diameter)
{
    Pose pose = POSE_IDENTITY;
    pose.x = centre.x;
    pose.y = centre.y;
    return (Shape){.core = CORE_POINT, .pose = pose, .growth = diameter / 2};
}

Shape shape_obround(Point from, Point to, double width)
{
    Point along = point_minus(to, from);
    double length = point_length(along);
    if (!(length > 0)) {
        return shape_circle(from, width);
    }
    return (Shape){
        .core = CORE_SEGMENT,
        .pose = {.x = from.x + along.x / 2,
                 .y = from.y + along.y / 2,
                 .cosine = along.x / length,
                 .sine = along.y / length},
        .growth = width / 2,
        .half_length = length / 2,
    };
}

Shape shape_rectangle(Pose pose, double length, double width, double corner_radius)
{
    /* A radius of half the width or more leaves an obround or a circle. */
    double growth = greater_of(0, lesser_of(corner_radius, lesser_of(length, width) / 2));
    return (Shape){
        .core = CORE_RECTANGLE,
        .pose = pose,
        .growth = growth,
        .half_length = length / 2 - growth,
        .half_width = width / 2 - growth,
    };
}

Shape shape_outline(const Outline *outline, Pose pose, double growth)
{
    return (Shape){.core = CORE_OUTLINE, .pose = pose, .growth = growth, .outline = outline};
}

static bool number_good(double number, double least)
{
    return number >= least && number <= length_to_mm(LENGTH_GREATEST);
}

bool shape_check(const Shape *shape, Error *error)
{
    double greatest = length_to_mm(LENGTH_GREATEST);
    const Pose *pose = &shape->pose;
    if (!number_good(pose->x, -greatest) || !number_good(pose->y, -greatest)) {
        return error_set(error, ERROR_GEOMETRY, NULL,
                         "a place is not a number, or more than 10,000 mm away");
    }
    if (!(fabs(pose->cosine * pose->cosine + pose->sine * pose->sine - 1) < 1e-9)) {
        return error_set(error, ERROR_GEOMETRY, NULL, "a rotation is not a number");
    }
    if (!number_good(shape->growth, 0)) {
        return error_set(error, ERROR_GEOMETRY, NULL,
                         "a radius or clearance is not a number from 0 to 10,000 mm");
    }
    bool long_one = shape->core == CORE_SEGMENT || shape->core == CORE_RECTANGLE;
    if ((long_one && !number_good(shape->half_length, 0)) ||
        (shape->core == CORE_RECTANGLE && !number_good(shape->half_width, 0))) {
        return error_set(error, ERROR_GEOMETRY, NULL,
                         "a length or width is not a number from 0 to 10,000 mm");
    }
    if (shape->core == CORE_OUTLINE && !shape->outline) {
        return error_set(error, ERROR_GEOMETRY, NULL, "an outline is missing");
    }
    return true;
}

int shape_core_sides(const Shape *shape, Side sides[4])
{
    const Pose pose = shape->pose;
    Point middle = {pose.x, pose.y};
    Point along = pose_direction(pose, (Point){shape->half_length, 0});
    if (shape->core == CORE_POINT) {
        sides[0] = side_line(middle, middle);
        return 1;
    }
    if (shape->core == CORE_SEGMENT) {
        sides[0] = side_line(point_minus(middle, along), point_plus(middle, along));
        return 1;
    }
    /* A rectangle turned over covers the same; this way it stays counter-clockwise. */
    Point up = {-pose.sine * shape->half_width, pose.cosine * shape->half_width};
    const Point corners[] = {
        point_minus(point_minus(middle, along), up),
        point_minus(point_plus(middle, along), up),
        point_plus(point_plus(middle, along), up),
        point_plus(point_minus(middle, along), up),
    };
    for (int i = 0; i < 4; i++) {
        sides[i] = side_line(corners[i], corners[(i + 1) % 4]);
    }
    return 4;
}

double shape_core_depth(const Shape *shape, Point p)
{
    if (!shape_core_has_area(shape)) {
        return 0;
    }
    Point own = pose_point(pose_inverse(shape->pose), p);
    if (shape->core == CORE_OUTLINE) {
        return -outline_distance(shape->outline, own, NULL);
    }
    return lesser_of(shape->half_length - fabs(own.x), shape->half_width - fabs(own.y));
}

bool shape_core_covers(const Shape *shape, Point p)
{
    if (!shape_core_has_area(shape)) {
        return false;
    }
    Point own = pose_point(pose_inverse(shape->pose), p);
    if (shape->core == CORE_OUTLINE) {
        return box_has_point(shape->outline->box, own) &&
               outline_parity(shape->outline, own, SIZE_MAX);
    }
    return fabs(own.x) < shape->half_length && fabs(own.y) < shape->half_width;
}

size_t shape_core_sample_count(const Shape *shape)
{
    switch (shape->core) {
    case CORE_POINT:
        return 1;
    case CORE_SEGMENT:
        return 3;
    case CORE_RECTANGLE:
        return 9;
    case CORE_OUTLINE:
    default:
        return 2 * shape->outline->side_count + 1;
    }
}

Point shape_core_sample(const Shape *shape, size_t index)
{
    if (shape->core == CORE_OUTLINE) {
        const Outline *outline = shape->outline;
        if (index == 2 * outline->side_count) {
            return pose_point(shape->pose, outline->inside);
        }
        const Side *side = &outline->sides[index / 2];
        return pose_point(shape->pose, index % 2 ? side_middle(side) : side->a);
    }
    /* A corner comes first, the middle last. */
    const int steps[] = {-1, 1, 0};
    int along = index % 3, across = index / 3;
    Point own = {0, 0};
    if (shape->core != CORE_POINT) {
        own.x = shape->half_length * steps[along];
    }
    if (shape->core == CORE_RECTANGLE) {
        own.y = shape->half_width * steps[across];
    }
    return pose_point(shape->pose, own);
}

/* The box from the reaches along the face's axes. */
static Box posed_outline_box(const Outline *outline, Pose pose,
                             double (*reach)(const Outline *outline, Point way))
{
    /* A direction of the face in the outline's own coordinates. */
    Pose turn = pose;
    turn.x = 0;
    turn.y = 0;
    Point x = pose_direction(pose_inverse(turn), (Point){1, 0});
    Point y = pose_direction(pose_inverse(turn), (Point){0, 1});
    return (Box){pose.x - reach(outline, (Point){-x.x, -x.y}),
                 pose.y - reach(outline, (Point){-y.x, -y.y}), pose.x + reach(outline, x),
                 pose.y + reach(outline, y)};
}

/* Of the turned outline, not of its turned box, which would be too great. */
static Box exact_outline_box(const Outline *outline, Pose pose)
{
    if (pose.sine == 0 || pose.cosine == 0) {
        Box own = outline->box;
        Point a = pose_point(pose, (Point){own.x0, own.y0});
        Point b = pose_point(pose, (Point){own.x1, own.y1});
        return box_with_point(box_with_point(BOX_EMPTY, a), b);
    }
    return posed_outline_box(outline, pose, outline_reach);
}

Box shape_box(const Shape *shape)
{
    const Pose *pose = &shape->pose;
    if (shape->core == CORE_OUTLINE) {
        return box_grown(exact_outline_box(shape->outline, *pose), shape->growth);
    }
    double half_length = shape->core == CORE_POINT ? 0 : shape->half_length;
    double half_width = shape->core == CORE_RECTANGLE ? shape->half_width : 0;
    double x = fabs(pose->cosine) * half_length + fabs(pose->sine) * half_width + shape->growth;
    double y = fabs(pose->sine) * half_length + fabs(pose->cosine) * half_width + shape->growth;
    return (Box){pose->x - x, pose->y - y, pose->x + x, pose->y + y};
}

Box shape_loose_box(const Shape *shape)
{
    if (shape->core != CORE_OUTLINE) {
        return shape_box(shape);
    }
    return box_grown(posed_outline_box(shape->outline, shape->pose, outline_reach_most),
                     shape->growth);
}

bool shape_contains(const Shape *shape, Point p)
{
    Point own = pose_point(pose_inverse(shape->pose), p);
    double reach = shape->growth + TOUCH, ignored_square;
    Point ignored;
    switch (shape->core) {
    case CORE_POINT:
        return point_length(own) <= reach;
    case CORE_SEGMENT:
        return hypot(greater_of(0, fabs(own.x) - shape->half_length), own.y) <= reach;
    case CORE_RECTANGLE:
        return hypot(greater_of(0, fabs(own.x) - shape->half_length),
                     greater_of(0, fabs(own.y) - shape->half_width)) <= reach;
    case CORE_OUTLINE:
    default:
        ignored_square = outline_nearest_point(shape->outline, own, reach * reach, &ignored);
        return ignored_square < reach * reach || outline_parity(shape->outline, own, SIZE_MAX);
    }
}
