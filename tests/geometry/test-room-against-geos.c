/* Rooms of random shapes within others, against GEOS.
 *
 * GEOS grows an outline with its own buffer. That takes shallow concave corners out first, to a
 * hundredth of the growth, so outer outlines here have straight sides and arcs that bulge outwards,
 * and no shallow corners; arcs that bulge inwards are tried against a cloud of places in the second
 * part.
 */
#include "flat.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#define CHORD 9e-5 /* mm */
/* The chords of three arcs: outer's own, its growth's, and inner's. */
#define WITHIN (3 * CHORD + 1e-6)

static size_t pair_count(void)
{
    return getenv("PINPLATE_LONG") ? 100000 : 3000;
}

static double distance_between(const GEOSGeometry *a, const GEOSGeometry *b)
{
    double distance = NAN;
    assert_true(GEOSDistanceIndexed(a, b, &distance));
    return distance;
}

static double place_distance(const GEOSGeometry *a, Point p)
{
    GEOSGeometry *place = flat_point(p);
    double distance = NAN;
    assert_true(GEOSDistance(a, place, &distance));
    GEOSGeom_destroy(place);
    return distance;
}

/* True where no corner of the ring, flattened, turns inwards by little. */
static bool has_no_shallow_corner(const Outline *outline)
{
    for (size_t ring = 0; ring < outline_ring_count(outline); ring++) {
        Points points = {0};
        size_t count;
        const Vertex *v = outline_ring(outline, ring, &count);
        for (size_t i = 0; i < count; i++) {
            flatten_side(&points, v[i], v[(i + 1) % count], CHORD);
        }
        bool shallow = false;
        for (size_t i = 0; i < points.count; i++) {
            Point a = points.all[i], b = points.all[(i + 1) % points.count];
            Point c = points.all[(i + 2) % points.count];
            double turn = point_cross(point_minus(b, a), point_minus(c, b));
            double height = fabs(turn) / point_distance(a, c);
            shallow = shallow || (turn < 0 && height < 0.1);
        }
        points_free(&points);
        if (shallow) {
            return false;
        }
    }
    return true;
}

static Outline *outer_outline(Random *random)
{
    const OutlineKind kind = {3, 10, 6, 14, 0.4, 0, 0.4};
    for (;;) {
        Outline *outline = random_outline(random, kind);
        if (has_no_shallow_corner(outline)) {
            return outline;
        }
        outline_unref(outline);
    }
}

static GEOSGeometry *grown_outline(const Shape *shape)
{
    GEOSGeometry *core = flat_core(shape, CHORD);
    if (shape->growth == 0) {
        return core;
    }
    double step = 2 * acos(1 - CHORD / shape->growth);
    GEOSGeometry *grown = GEOSBuffer(core, shape->growth, (int)ceil(M_PI / 2 / step));
    GEOSGeom_destroy(core);
    return grown;
}

static const char *const names[] = {"point", "segment", "rectangle", "outline"};

/* The room by GEOS, and how far the inner core reaches out of the outer shape. */
typedef struct Answer {
    double room, out;
    bool core_inside;
} Answer;

static Answer answer_of_geos(const Shape *outer, const Shape *inner)
{
    GEOSGeometry *area =
        outer->core == CORE_OUTLINE ? grown_outline(outer) : flat_shape(outer, CHORD);
    GEOSGeometry *border = GEOSBoundary(area);
    GEOSGeometry *core = flat_core(inner, CHORD);
    Answer answer = {.core_inside = GEOSContains(area, core)};
    answer.room = distance_between(border, core) - inner->growth;
    if (!answer.core_inside && outer->core != CORE_OUTLINE) {
        GEOSGeometry *rest = GEOSDifference(core, area);
        /* The furthest vertex, which for a convex outer is the furthest place. */
        if (!GEOSisEmpty(rest)) {
            GEOSGeometry *all = GEOSGeom_extractUniquePoints(rest);
            for (int i = 0; i < GEOSGetNumGeometries(all); i++) {
                double x = 0, y = 0;
                const GEOSGeometry *p = GEOSGetGeometryN(all, i);
                assert_true(GEOSGeomGetX(p, &x) && GEOSGeomGetY(p, &y));
                answer.out = fmax(answer.out, place_distance(area, (Point){x, y}));
            }
            GEOSGeom_destroy(all);
        }
        GEOSGeom_destroy(rest);
    }
    GEOSGeom_destroy(core);
    GEOSGeom_destroy(border);
    GEOSGeom_destroy(area);
    return answer;
}

/* GEOS's buffer leaves out voids of a few hundredths of the growth. A room that is less than GEOS's
 * is right when there are places close by its end that are further from the core than the growth.
 */
static bool has_witness(const Shape *outer, Point on_outer)
{
    GEOSGeometry *core = flat_core(outer, CHORD);
    bool found = false;
    for (double reach = 1e-3; reach < 0.1 && !found; reach *= 1.5) {
        for (int i = 0; i < 90 && !found; i++) {
            double angle = 2 * M_PI * i / 90;
            Point p = {on_outer.x + reach * cos(angle), on_outer.y + reach * sin(angle)};
            found = place_distance(core, p) > outer->growth + 2 * CHORD;
        }
    }
    GEOSGeom_destroy(core);
    return found;
}

static void check_room(const Shape *outer, const Shape *inner, size_t number)
{
    Gap gap;
    shape_room(outer, inner, &gap);
    Answer answer = answer_of_geos(outer, inner);
    const char *names_in[] = {names[inner->core], names[outer->core]};
    if (answer.core_inside) {
        double more = gap.distance - answer.room;
        if (more > WITHIN || (more < -WITHIN && !has_witness(outer, gap.on_a))) {
            fail_msg("pair %zu, %s in %s: room %.12g, by GEOS %.12g", number, names_in[0],
                     names_in[1], gap.distance, answer.room);
        }
        double apart = point_distance(gap.on_a, gap.on_b);
        bool within = gap.distance > -inner->growth + WITHIN;
        if (within && fabs(apart - fabs(gap.distance)) > 1e-8) {
            fail_msg("pair %zu, %s in %s: room %.12g, points %.12g apart", number, names_in[0],
                     names_in[1], gap.distance, apart);
        }
    } else if (outer->core != CORE_OUTLINE) {
        if (fabs(gap.distance + answer.out + inner->growth) > WITHIN) {
            fail_msg("pair %zu, %s out of %s: room %.12g, by GEOS %.12g", number, names_in[0],
                     names_in[1], gap.distance, -answer.out - inner->growth);
        }
    } else if (gap.distance > -inner->growth + WITHIN) {
        fail_msg("pair %zu, %s out of %s: room %.12g", number, names_in[0], names_in[1],
                 gap.distance);
    }
    Random random = {number};
    Pose by = random_pose(&random, 500);
    Shape moved[] = {*outer, *inner};
    moved[0].pose = pose_after(by, outer->pose);
    moved[1].pose = pose_after(by, inner->pose);
    Gap elsewhere;
    shape_room(&moved[0], &moved[1], &elsewhere);
    if (answer.core_inside && fabs(elsewhere.distance - gap.distance) > 1e-8) {
        fail_msg("pair %zu, %s in %s: room elsewhere %.12g, here %.12g", number, names_in[0],
                 names_in[1], elsewhere.distance, gap.distance);
    }
}

static void check_kinds(ShapeCore outer_core, ShapeCore inner_core)
{
    Random random = {(uint64_t)(100 + outer_core * 4 + inner_core)};
    const OutlineKind inner_kind = {3, 10, 0.5, 4, 0.5, 0.4, 0.3};
    for (size_t i = 0; i < pair_count(); i++) {
        Outline *outlines[2] = {NULL, NULL};
        if (outer_core == CORE_OUTLINE) {
            outlines[0] = outer_outline(&random);
        }
        if (inner_core == CORE_OUTLINE) {
            outlines[1] = random_outline(&random, inner_kind);
        }
        Shape outer = random_shape(&random, outer_core, outlines[0], 3);
        outer.growth = outer_core < CORE_RECTANGLE ? random_between(&random, 4, 9) : outer.growth;
        outer.half_length *= 2;
        outer.half_width *= 2;
        Shape inner = random_shape(&random, inner_core, outlines[1], 1);
        inner.half_length *= 0.3;
        inner.half_width *= 0.3;
        outer.pose = random_pose(&random, 50);
        inner.pose = pose_after(outer.pose, random_pose(&random, 5));
        check_room(&outer, &inner, i);
        outline_unref(outlines[0]);
        outline_unref(outlines[1]);
    }
}

#define KINDS(name, outer, inner)         \
    static void test_##name(void **state) \
    {                                     \
        check_kinds(outer, inner);        \
    }

KINDS(point_in_point, CORE_POINT, CORE_POINT)
KINDS(segment_in_point, CORE_POINT, CORE_SEGMENT)
KINDS(rectangle_in_point, CORE_POINT, CORE_RECTANGLE)
KINDS(outline_in_point, CORE_POINT, CORE_OUTLINE)
KINDS(point_in_segment, CORE_SEGMENT, CORE_POINT)
KINDS(segment_in_segment, CORE_SEGMENT, CORE_SEGMENT)
KINDS(rectangle_in_segment, CORE_SEGMENT, CORE_RECTANGLE)
KINDS(outline_in_segment, CORE_SEGMENT, CORE_OUTLINE)
KINDS(point_in_rectangle, CORE_RECTANGLE, CORE_POINT)
KINDS(segment_in_rectangle, CORE_RECTANGLE, CORE_SEGMENT)
KINDS(rectangle_in_rectangle, CORE_RECTANGLE, CORE_RECTANGLE)
KINDS(outline_in_rectangle, CORE_RECTANGLE, CORE_OUTLINE)
KINDS(point_in_outline, CORE_OUTLINE, CORE_POINT)
KINDS(segment_in_outline, CORE_OUTLINE, CORE_SEGMENT)
KINDS(rectangle_in_outline, CORE_OUTLINE, CORE_RECTANGLE)
KINDS(outline_in_outline, CORE_OUTLINE, CORE_OUTLINE)

/* A search for the place outside the grown outline that is nearest to inner's core. */
typedef struct Cloud {
    const GEOSPreparedGeometry *core, *inner;
    double growth, least;
} Cloud;

static void try_place(Cloud *cloud, Point p)
{
    GEOSGeometry *place = flat_point(p);
    double to_inner, to_core;
    assert_true(GEOSPreparedDistance(cloud->inner, place, &to_inner));
    if (to_inner < cloud->least) {
        assert_true(GEOSPreparedDistance(cloud->core, place, &to_core));
        cloud->least = to_core > cloud->growth + 1e-4 ? to_inner : cloud->least;
    }
    GEOSGeom_destroy(place);
}

#define SPACING 5e-3 /* mm */

/* Along a chord, on both sides; the wrong one is inside, where it is no further than the growth. */
static void try_chord(Cloud *cloud, Point a, Point b)
{
    double side = point_distance(a, b);
    int steps = (int)ceil(side / SPACING);
    Point out = point_times(point_minus(b, a), (cloud->growth + 2e-4) / side);
    for (int i = 0; i < steps; i++) {
        Point p = point_plus(a, point_times(point_minus(b, a), (i + 0.5) / steps));
        try_place(cloud, (Point){p.x + out.y, p.y - out.x});
        try_place(cloud, (Point){p.x - out.y, p.y + out.x});
    }
}

static void try_round(Cloud *cloud, Point corner)
{
    double radius = cloud->growth + 2e-4;
    int steps = (int)ceil(2 * M_PI * radius / SPACING);
    for (int i = 0; i < steps; i++) {
        double angle = 2 * M_PI * i / steps;
        try_place(cloud, (Point){corner.x + radius * cos(angle), corner.y + radius * sin(angle)});
    }
}

/* The least distance to inner's core of places just outside the grown outline, tried all along its
 * border; at most the room, but for the way between two places. */
static double least_of_cloud(const Shape *outer, const GEOSGeometry *core,
                             const GEOSGeometry *inner)
{
    Cloud cloud = {GEOSPrepare(core), GEOSPrepare(inner), outer->growth, INFINITY};
    GEOSGeometry *border = GEOSBoundary(core);
    for (int ring = 0; ring < GEOSGetNumGeometries(border); ring++) {
        const GEOSCoordSequence *c = GEOSGeom_getCoordSeq(GEOSGetGeometryN(border, ring));
        unsigned count;
        assert_true(GEOSCoordSeq_getSize(c, &count));
        for (unsigned i = 0; i + 1 < count; i++) {
            Point a, b;
            GEOSCoordSeq_getXY(c, i, &a.x, &a.y);
            GEOSCoordSeq_getXY(c, i + 1, &b.x, &b.y);
            try_chord(&cloud, a, b);
        }
    }
    for (size_t ring = 0; ring < outline_ring_count(outer->outline); ring++) {
        size_t count;
        const Vertex *v = outline_ring(outer->outline, ring, &count);
        for (size_t i = 0; i < count; i++) {
            try_round(&cloud, (Point){v[i].x, v[i].y});
        }
    }
    GEOSPreparedGeom_destroy(cloud.core);
    GEOSPreparedGeom_destroy(cloud.inner);
    GEOSGeom_destroy(border);
    return cloud.least;
}

static void test_room_among_arcs_that_bulge_inwards(void **state)
{
    const OutlineKind kind = {3, 10, 6, 14, 0.6, 0.7, 0.5};
    Random random = {99};
    size_t tried = getenv("PINPLATE_LONG") ? 5000 : 150;
    for (size_t i = 0; i < tried;) {
        Outline *outline = random_outline(&random, kind);
        Shape outer = shape_outline(outline, POSE_IDENTITY, random_between(&random, 0.2, 3));
        Shape inner = random_shape(&random, (ShapeCore)random_below(&random, 3), NULL, 1);
        inner.half_length *= 0.3;
        inner.half_width *= 0.3;
        inner.growth = 0;
        inner.pose = random_pose(&random, 8);
        GEOSGeometry *core = flat_core(&outer, CHORD), *inside = flat_core(&inner, CHORD);
        Gap gap;
        shape_room(&outer, &inner, &gap);
        if (GEOSContains(core, inside)) {
            double least = least_of_cloud(&outer, core, inside);
            /* A place stands 2e-4 outside the border, and up to half a spacing, grown at an arc
             * that bulges outwards, from the nearest. */
            if (gap.distance > least + 2e-4 || gap.distance < least - 0.05) {
                fail_msg("pair %zu, %s: room %.12g, tried %.12g", i, names[inner.core],
                         gap.distance, least);
            }
            i++;
        }
        GEOSGeom_destroy(core);
        GEOSGeom_destroy(inside);
        outline_unref(outline);
    }
}

static void be_quiet(const char *format, ...)
{
}

int main(void)
{
    initGEOS(be_quiet, be_quiet);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_point_in_point),
        cmocka_unit_test(test_segment_in_point),
        cmocka_unit_test(test_rectangle_in_point),
        cmocka_unit_test(test_outline_in_point),
        cmocka_unit_test(test_point_in_segment),
        cmocka_unit_test(test_segment_in_segment),
        cmocka_unit_test(test_rectangle_in_segment),
        cmocka_unit_test(test_outline_in_segment),
        cmocka_unit_test(test_point_in_rectangle),
        cmocka_unit_test(test_segment_in_rectangle),
        cmocka_unit_test(test_rectangle_in_rectangle),
        cmocka_unit_test(test_outline_in_rectangle),
        cmocka_unit_test(test_point_in_outline),
        cmocka_unit_test(test_segment_in_outline),
        cmocka_unit_test(test_rectangle_in_outline),
        cmocka_unit_test(test_outline_in_outline),
        cmocka_unit_test(test_room_among_arcs_that_bulge_inwards),
    };
    int failed = cmocka_run_group_tests_name("room-against-geos", tests, NULL, NULL);
    finishGEOS();
    return failed;
}
