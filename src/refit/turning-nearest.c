/* At which rotations something that turns with the part comes nearest to something that stays.
 *
 * The nearest places of two outlines of lines and arcs are a corner, the middle of an arc (less its
 * radius), or the foot of the perpendicular on a line; two points, one of them turned about a
 * third, are nearest when both lie on one ray from there. So each corner, middle and foot is noted
 * with its direction and its distance from the hole that the part is turned about, and the
 * rotations are the differences of two directions. In an arc's hollow it is the opposite direction.
 */
#include "refit/turning.h"

#include <stdlib.h>

#define NEAR 15.0 /* mm: what comes no nearer than this no rule minds */
#define ALIKE 0.01

typedef struct Spot {
    double degrees, distance; /* from the hole that is turned about */
    double radius;            /* of an arc, and how far the shape is grown */
    bool foot;                /* on a line: never nearest to another line's */
} Spot;

typedef struct Spots {
    Point about;
    GArray *spots;
} Spots;

static void add_spot(const Spots *to, Point at, double radius, bool foot)
{
    Point way = point_minus(at, to->about);
    Spot spot = {atan2(way.y, way.x) * (180 / M_PI), point_length(way), radius, foot};
    g_array_append_val(to->spots, spot);
}

static void add_line(const Spots *to, Point from, Point end, double growth)
{
    Point along = point_minus(end, from);
    double length = point_dot(along, along);
    double share = length > 0 ? point_dot(along, point_minus(to->about, from)) / length : -1;
    if (share > 0 && share < 1)
        add_spot(to, point_plus(from, point_times(along, share)), growth, true);
}

/* The middle of the circle lies on the perpendicular of the chord's middle, and its radius is
 * (chord squared / 4 + sagitta squared) / (2 sagitta): plane geometry. */
static void add_arc(const Spots *to, Point from, Point end, double sagitta, double growth)
{
    Point along = point_minus(end, from), middle = point_times(point_plus(from, end), 0.5);
    double chord = point_length(along);
    double radius = (chord * chord / 4 + sagitta * sagitta) / (2 * sagitta);
    Point right = {along.y / chord, -along.x / chord};
    add_spot(to, point_plus(middle, point_times(right, sagitta - radius)), fabs(radius) + growth,
             false);
}

static void add_outline(const Spots *to, const Outline *outline, Pose pose, double growth)
{
    for (size_t ring = 0; ring < outline_ring_count(outline); ring++) {
        size_t count;
        const Vertex *vertices = outline_ring(outline, ring, &count);
        for (size_t i = 0; i < count; i++) {
            const Vertex *a = &vertices[i], *b = &vertices[(i + 1) % count];
            Point from = pose_point(pose, (Point){a->x, a->y});
            Point end = pose_point(pose, (Point){b->x, b->y});
            add_spot(to, from, growth, false);
            if (a->sagitta == 0)
                add_line(to, from, end, growth);
            else
                add_arc(to, from, end, pose.turned_over ? -a->sagitta : a->sagitta, growth);
        }
    }
}

static void add_shape(const Spots *to, const Shape *shape)
{
    const double signs[4][2] = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}};
    Point corners[4];
    if (shape->core == CORE_OUTLINE) {
        add_outline(to, shape->outline, shape->pose, shape->growth);
        return;
    }
    for (int i = 0; i < 4; i++)
        corners[i] = pose_point(shape->pose, (Point){signs[i][0] * shape->half_length,
                                                     signs[i][1] * shape->half_width});
    int count = shape->core == CORE_RECTANGLE ? 4 : shape->core == CORE_SEGMENT ? 2 : 1;
    for (int i = 0; i < count; i++) {
        add_spot(to, corners[i], shape->growth, false);
        if (count > 1)
            add_line(to, corners[i], corners[(i + 1) % count], shape->growth);
    }
}

typedef struct Standing {
    Spots *spots;
    FeatureId face;
} Standing;

static bool add_standing(const Feature *feature, void *data)
{
    const Standing *standing = data;
    if (feature->face != standing->face)
        return true;
    add_shape(standing->spots, &feature->shape);
    if (feature->has_blank)
        add_shape(standing->spots, &feature->blank);
    return true;
}

/* Of the part as it lies at no rotation. */
static void add_turning(const Turning *turning, const Spots *to)
{
    const Refit *refit = turning->refit;
    RefitAnswer *answer = turning_answer(turning, 0);
    Pose pose = refit_answer_pose(answer);
    for (int i = 0; i < refit->query.part_count; i++)
        add_spot(to, pose_point(pose, refit->query.part[i]), 0, false);
    if (refit->outline)
        add_outline(to, refit->outline, pose, 0);
    const Blank *blank = &refit->part->blank;
    if (blank->length > 0) {
        double x = length_to_mm(blank->at.x), y = length_to_mm(blank->at.y);
        double length = length_to_mm(blank->length), width = length_to_mm(blank->width);
        Pose middle = pose;
        Point at = pose_point(pose, (Point){x + length / 2, y + width / 2});
        middle.x = at.x;
        middle.y = at.y;
        Shape shape = shape_rectangle(middle, length, width, 0);
        add_shape(to, &shape);
    }
    refit_answer_free(answer);
}

static void add_rotation(GArray *degrees, double difference)
{
    double turned = fmod(difference, 360);
    turned = turned < 0 ? turned + 360 : turned;
    g_array_append_val(degrees, turned);
}

static void add_rotations(GArray *degrees, const Spot *turned, const Spot *stays)
{
    double radii = turned->radius + stays->radius;
    if (turned->foot && stays->foot)
        return;
    if (fabs(turned->distance - stays->distance) - radii <= NEAR)
        add_rotation(degrees, stays->degrees - turned->degrees);
    if (radii > NEAR && fabs(turned->distance + stays->distance - radii) <= NEAR)
        add_rotation(degrees, stays->degrees - turned->degrees + 180);
}

static int compare_degrees(const void *a, const void *b)
{
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

static void drop_alike(GArray *degrees)
{
    guint kept = 0;
    g_array_sort(degrees, compare_degrees);
    for (guint i = 0; i < degrees->len; i++) {
        double here = g_array_index(degrees, double, i);
        if (kept == 0 || here - g_array_index(degrees, double, kept - 1) > ALIKE)
            g_array_index(degrees, double, kept++) = here;
    }
    g_array_set_size(degrees, kept);
}

GArray *turning_nearest(const Turning *turning)
{
    GArray *degrees = g_array_new(FALSE, FALSE, sizeof(double));
    Spots turned = {turning->hole->at, g_array_new(FALSE, FALSE, sizeof(Spot))};
    Spots stays = {turning->hole->at, g_array_new(FALSE, FALSE, sizeof(Spot))};
    Standing standing = {&stays, turning->face->face};
    add_turning(turning, &turned);
    placed_each(turning->refit->placed, add_standing, &standing);
    add_shape(&stays, &placed_frame(turning->refit->placed, turning->face->face)->extent);
    for (guint i = 0; i < turned.spots->len; i++)
        for (guint k = 0; k < stays.spots->len; k++)
            add_rotations(degrees, &g_array_index(turned.spots, Spot, i),
                          &g_array_index(stays.spots, Spot, k));
    g_array_unref(turned.spots);
    g_array_unref(stays.spots);
    drop_alike(degrees);
    return degrees;
}
