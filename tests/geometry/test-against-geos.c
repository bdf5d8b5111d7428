/* Gaps of random shapes against GEOS, arcs flattened finer than 0.1 um.
 *
 * 3,000 pairs of every two kinds of core; 100,000 when PINPLATE_LONG is set.
 */
#include "flat.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#define CHORD 5e-5 /* mm */

/* How far a flattened distance may be out: the chords of both shapes, and rounding. */
#define WITHIN (2 * CHORD + 1e-6)
#define WITHIN_LINES 1e-9

static size_t pair_count(void)
{
    return getenv("PINPLATE_LONG") ? 100000 : 3000;
}

static const OutlineKind any_outline = {3, 12, 2, 8, 0.5, 0.4, 0.3};

static bool is_straight(const Shape *shape)
{
    if (shape->core != CORE_OUTLINE) {
        return true;
    }
    for (size_t ring = 0; ring < outline_ring_count(shape->outline); ring++) {
        size_t count;
        const Vertex *v = outline_ring(shape->outline, ring, &count);
        for (size_t i = 0; i < count; i++) {
            if (v[i].sagitta != 0) {
                return false;
            }
        }
    }
    return true;
}

/* Two random shapes and their cores flattened. */
typedef struct Couple {
    Shape shapes[2];
    Outline *outlines[2];
    GEOSGeometry *cores[2];
    double within;
} Couple;

static Couple random_couple(Random *random, ShapeCore a, ShapeCore b)
{
    Couple couple = {.within = WITHIN_LINES};
    const ShapeCore kinds[] = {a, b};
    for (int i = 0; i < 2; i++) {
        couple.outlines[i] = kinds[i] == CORE_OUTLINE ? random_outline(random, any_outline) : NULL;
        couple.shapes[i] = random_shape(random, kinds[i], couple.outlines[i], 3);
        couple.shapes[i].pose = random_pose(random, 8);
        if (!is_straight(&couple.shapes[i])) {
            couple.within = WITHIN;
        }
    }
    for (int i = 0; i < 2; i++) {
        couple.cores[i] = flat_core(&couple.shapes[i], CHORD);
    }
    return couple;
}

static void couple_free(Couple *couple)
{
    for (int i = 0; i < 2; i++) {
        GEOSGeom_destroy(couple->cores[i]);
        outline_unref(couple->outlines[i]);
    }
}

static double distance_between(const GEOSGeometry *a, const GEOSGeometry *b)
{
    double distance = NAN;
    assert_true(GEOSDistanceIndexed(a, b, &distance));
    return distance;
}

/* The distance of the borders: of a polygon its rings, of a point or line itself. */
static double border_distance(const Couple *couple)
{
    GEOSGeometry *borders[2];
    for (int i = 0; i < 2; i++) {
        bool area = GEOSGeomTypeId(couple->cores[i]) == GEOS_POLYGON;
        borders[i] = area ? GEOSBoundary(couple->cores[i]) : GEOSGeom_clone(couple->cores[i]);
    }
    double distance = distance_between(borders[0], borders[1]);
    GEOSGeom_destroy(borders[0]);
    GEOSGeom_destroy(borders[1]);
    return distance;
}

static void fail_couple(const Couple *couple, size_t number, const char *what, double ours,
                        double theirs)
{
    const char *const names[] = {"point", "segment", "rectangle", "outline"};
    fail_msg("pair %zu of %s and %s: %s %.12g, by GEOS %.12g", number,
             names[couple->shapes[0].core], names[couple->shapes[1].core], what, ours, theirs);
}

static void check_points(const Couple *couple, size_t number, const Gap *gap)
{
    const Point places[] = {gap->on_a, gap->on_b};
    for (int i = 0; i < 2; i++) {
        GEOSGeometry *place = flat_point(places[i]);
        double off = distance_between(place, couple->cores[i]);
        GEOSGeom_destroy(place);
        /* Where the growths meet, a point may lie nearer to another part of its core. */
        double more = off - couple->shapes[i].growth;
        if (gap->distance > 0 ? fabs(more) > couple->within : more > couple->within) {
            fail_couple(couple, number, "a point's distance from its core", off,
                        couple->shapes[i].growth);
        }
    }
    double apart = point_distance(gap->on_a, gap->on_b);
    if (fabs(apart - fabs(gap->distance)) > 1e-9) {
        fail_couple(couple, number, "the points' distance", apart, gap->distance);
    }
}

static void check_couple(const Couple *couple, size_t number)
{
    Gap gap, back;
    shape_gap(&couple->shapes[0], &couple->shapes[1], &gap);
    shape_gap(&couple->shapes[1], &couple->shapes[0], &back);
    double growths = couple->shapes[0].growth + couple->shapes[1].growth;
    bool meets = GEOSIntersects(couple->cores[0], couple->cores[1]);
    double border = border_distance(couple);
    if (!meets) {
        if (fabs(gap.distance - (border - growths)) > couple->within) {
            fail_couple(couple, number, "gap", gap.distance, border - growths);
        }
        if (gap.distance + growths > couple->within) {
            check_points(couple, number, &gap);
        }
    } else if (border > couple->within) {
        /* One in the other: the rings' distance comes on top of the growths. */
        if (fabs(gap.distance + growths + border) > couple->within) {
            fail_couple(couple, number, "nested gap", gap.distance, -growths - border);
        }
    } else if (gap.distance > -growths + couple->within) {
        fail_couple(couple, number, "gap of what crosses", gap.distance, -growths);
    }
    if (fabs(gap.distance - back.distance) > 1e-9) {
        fail_couple(couple, number, "gap the other way", back.distance, gap.distance);
    }
}

/* The same gap wherever both shapes lie together. */
static void check_moved(const Couple *couple, size_t number, Pose by)
{
    Gap gap, moved;
    Shape shapes[] = {couple->shapes[0], couple->shapes[1]};
    shape_gap(&shapes[0], &shapes[1], &gap);
    for (int i = 0; i < 2; i++) {
        shapes[i].pose = pose_after(by, shapes[i].pose);
    }
    shape_gap(&shapes[0], &shapes[1], &moved);
    if (fabs(gap.distance - moved.distance) > 1e-9) {
        fail_couple(couple, number, "gap elsewhere", moved.distance, gap.distance);
    }
}

static void check_kinds(ShapeCore a, ShapeCore b)
{
    Random random = {(uint64_t)(a * 4 + b + 1)};
    for (size_t i = 0; i < pair_count(); i++) {
        Couple couple = random_couple(&random, a, b);
        check_couple(&couple, i);
        check_moved(&couple, i, random_pose(&random, 500));
        couple_free(&couple);
    }
}

#define KINDS(name, a, b)                 \
    static void test_##name(void **state) \
    {                                     \
        check_kinds(a, b);                \
    }

KINDS(point_and_point, CORE_POINT, CORE_POINT)
KINDS(point_and_segment, CORE_POINT, CORE_SEGMENT)
KINDS(point_and_rectangle, CORE_POINT, CORE_RECTANGLE)
KINDS(point_and_outline, CORE_POINT, CORE_OUTLINE)
KINDS(segment_and_segment, CORE_SEGMENT, CORE_SEGMENT)
KINDS(segment_and_rectangle, CORE_SEGMENT, CORE_RECTANGLE)
KINDS(segment_and_outline, CORE_SEGMENT, CORE_OUTLINE)
KINDS(rectangle_and_rectangle, CORE_RECTANGLE, CORE_RECTANGLE)
KINDS(rectangle_and_outline, CORE_RECTANGLE, CORE_OUTLINE)
KINDS(outline_and_outline, CORE_OUTLINE, CORE_OUTLINE)

/* The growth itself: whole shapes as polygons, where the growths do not make them meet. */
static void test_grown_shapes_as_polygons(void **state)
{
    Random random = {77};
    const ShapeCore kinds[] = {CORE_POINT, CORE_SEGMENT, CORE_RECTANGLE};
    for (size_t i = 0; i < pair_count(); i++) {
        Shape a = random_shape(&random, kinds[random_below(&random, 3)], NULL, 3);
        Shape b = random_shape(&random, kinds[random_below(&random, 3)], NULL, 3);
        a.growth = random_between(&random, 0.5, 3);
        b.growth = random_between(&random, 0.5, 3);
        a.pose = random_pose(&random, 8);
        b.pose = random_pose(&random, 8);
        GEOSGeometry *flat[] = {flat_shape(&a, CHORD), flat_shape(&b, CHORD)};
        Gap gap;
        shape_gap(&a, &b, &gap);
        bool meets = GEOSIntersects(flat[0], flat[1]);
        double distance = distance_between(flat[0], flat[1]);
        if (meets ? gap.distance > WITHIN : fabs(gap.distance - distance) > WITHIN) {
            fail_msg("pair %zu: gap %.12g, by GEOS %.12g", i, gap.distance, distance);
        }
        GEOSGeom_destroy(flat[0]);
        GEOSGeom_destroy(flat[1]);
    }
}

/* Area, length, centroid, box and containment of outlines. */
static void test_measures(void **state)
{
    Random random = {78};
    for (size_t i = 0; i < pair_count(); i++) {
        Outline *outline = random_outline(&random, any_outline);
        Shape shape = shape_outline(outline, POSE_IDENTITY, 0);
        GEOSGeometry *flat = flat_core(&shape, CHORD / 5);
        double area = 0, length = 0, x = 0, y = 0;
        assert_true(GEOSArea(flat, &area) && GEOSLength(flat, &length));
        GEOSGeometry *centroid = GEOSGetCentroid(flat);
        assert_true(GEOSGeomGetX(centroid, &x) && GEOSGeomGetY(centroid, &y));
        GEOSGeom_destroy(centroid);
        /* The chords' error times the length. */
        assert_true(fabs(outline_area(outline) - area) < CHORD / 5 * length);
        assert_true(fabs(outline_length(outline) - length) < 1e-4 * length);
        Point ours = outline_centroid(outline);
        assert_true(hypot(ours.x - x, ours.y - y) < CHORD * length / area * 10);
        Box box = outline_box(outline);
        assert_true(GEOSGeom_getXMin(flat, &x) && fabs(box.x0 - x) < CHORD);
        assert_true(GEOSGeom_getYMax(flat, &y) && fabs(box.y1 - y) < CHORD);
        for (int j = 0; j < 10; j++) {
            Point p = {random_between(&random, -9, 9), random_between(&random, -9, 9)};
            GEOSGeometry *place = flat_point(p);
            bool inside = GEOSContains(flat, place);
            Point nearest;
            double distance = outline_distance(outline, p, &nearest);
            GEOSGeometry *border = GEOSBoundary(flat);
            double expected = distance_between(border, place) * (inside ? -1 : 1);
            if (fabs(distance) > CHORD) {
                assert_int_equal(outline_contains(outline, p), inside);
            }
            if (fabs(fabs(distance) - fabs(expected)) > CHORD) {
                fail_msg("outline %zu: distance %.12g, by GEOS %.12g", i, distance, expected);
            }
            GEOSGeom_destroy(place);
            GEOSGeom_destroy(border);
        }
        GEOSGeom_destroy(flat);
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
        cmocka_unit_test(test_point_and_point),
        cmocka_unit_test(test_point_and_segment),
        cmocka_unit_test(test_point_and_rectangle),
        cmocka_unit_test(test_point_and_outline),
        cmocka_unit_test(test_segment_and_segment),
        cmocka_unit_test(test_segment_and_rectangle),
        cmocka_unit_test(test_segment_and_outline),
        cmocka_unit_test(test_rectangle_and_rectangle),
        cmocka_unit_test(test_rectangle_and_outline),
        cmocka_unit_test(test_outline_and_outline),
        cmocka_unit_test(test_grown_shapes_as_polygons),
        cmocka_unit_test(test_measures),
    };
    int failed = cmocka_run_group_tests_name("against-geos", tests, NULL, NULL);
    finishGEOS();
    return failed;
}
