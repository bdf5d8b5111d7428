/* Sections, crossings and borders of shapes, by hand and against GEOS. */
#include "flat.h"
#include "geometry/section.h"
#include "rings.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define CHORD 5e-5 /* mm */

static void assert_close(double a, double b, double within)
{
    if (!(fabs(a - b) <= within)) {
        fail_msg("%.17g is not %.17g within %g", a, b, within);
    }
}

static size_t case_count(void)
{
    return getenv("PINPLATE_LONG") ? 100000 : 3000;
}

static void test_section_of_a_hole_and_a_slot(void **state)
{
    Stretch s[4];
    Shape hole = shape_circle((Point){10, 0}, 10);
    assert_int_equal(shape_section(&hole, (Point){0, 3}, (Point){20, 3}, s, 4), 1);
    assert_close(s[0].start, 6, 1e-12);
    assert_close(s[0].end, 14, 1e-12);
    /* From inside, and to inside. */
    assert_int_equal(shape_section(&hole, (Point){10, 0}, (Point){20, 0}, s, 4), 1);
    assert_close(s[0].start, 0, 0);
    assert_close(s[0].end, 5, 1e-12);
    assert_int_equal(shape_section(&hole, (Point){10, 1}, (Point){10, 2}, s, 4), 1);
    assert_close(s[0].end, 1, 0);
    /* A tangent, a miss, no line. */
    assert_int_equal(shape_section(&hole, (Point){0, 5}, (Point){20, 5}, s, 4), 0);
    assert_int_equal(shape_section(&hole, (Point){0, 6}, (Point){20, 6}, s, 4), 0);
    assert_int_equal(shape_section(&hole, (Point){10, 0}, (Point){10, 0}, s, 4), 0);
    Shape slot = shape_obround((Point){0, 0}, (Point){0, 20}, 6);
    assert_int_equal(shape_section(&slot, (Point){-9, 7}, (Point){9, 7}, s, 4), 1);
    assert_close(s[0].end - s[0].start, 6, 1e-12);
    assert_int_equal(shape_section(&slot, (Point){1, -9}, (Point){1, 40}, s, 4), 1);
    assert_close(s[0].end - s[0].start, 20 + 2 * sqrt(8), 1e-12);
}

static void test_section_through_an_opening(void **state)
{
    const Vertex vertices[] = {{0, 0, 0},   {60, 0, 0},  {60, 60, 0}, {0, 60, 0},
                               {20, 20, 0}, {40, 20, 0}, {40, 40, 0}, {20, 40, 0}};
    Outline *plate = outline_new(vertices, (const size_t[]){0, 4, 8}, 2, NULL);
    Shape shape = shape_outline(plate, POSE_IDENTITY, 3);
    Stretch s[4];
    assert_int_equal(shape_section(&shape, (Point){-10, 30}, (Point){70, 30}, s, 4), 2);
    assert_close(s[0].start, 7, 1e-12);
    assert_close(s[0].end, 33, 1e-12);
    assert_close(s[1].start, 47, 1e-12);
    assert_close(s[1].end, 73, 1e-12);
    /* Through the corners of the grown opening. */
    assert_int_equal(shape_section(&shape, (Point){30, 30}, (Point){30 + 40, 30 + 40}, s, 4), 1);
    assert_close(s[0].start, 7 * sqrt(2), 1e-9);
    assert_close(s[0].end, 30 * sqrt(2) + 3, 1e-9);
    /* No more than there is room for. */
    s[1].start = -77;
    assert_int_equal(shape_section(&shape, (Point){-10, 30}, (Point){70, 30}, s, 1), 2);
    assert_close(s[1].start, -77, 0);
    outline_unref(plate);
}

static void test_crossings(void **state)
{
    Shape a = shape_circle((Point){0, 0}, 10), b = shape_circle((Point){8, 0}, 10);
    Point p[8];
    assert_int_equal(shape_crossings(&a, &b, p, 8), 2);
    for (int i = 0; i < 2; i++) {
        assert_close(p[i].x, 4, 1e-12);
        assert_close(fabs(p[i].y), 3, 1e-12);
    }
    b = shape_circle((Point){10, 0}, 10);
    assert_int_equal(shape_crossings(&a, &b, p, 8), 1);
    assert_close(p[0].x, 5, 1e-7);
    b = shape_circle((Point){0, 1}, 2);
    assert_int_equal(shape_crossings(&a, &b, p, 8), 0);
    /* Two squares side by side share an edge: its ends. */
    Pose at = POSE_IDENTITY;
    Shape c = shape_rectangle(at, 4, 4, 0);
    at.x = 4;
    at.y = 1;
    Shape d = shape_rectangle(at, 4, 4, 0);
    assert_int_equal(shape_crossings(&c, &d, p, 8), 2);
    assert_close(p[0].x, 2, 0);
    assert_close(p[1].x, 2, 0);
    assert_close(p[0].y + p[1].y, 2 - 1, 0);
}

static void test_shapes_as_outlines(void **state)
{
    Shape hole = shape_circle((Point){3, 4}, 10);
    Outline *outline = shape_to_outline(&hole, NULL);
    assert_non_null(outline);
    assert_close(outline_area(outline), M_PI * 25, 1e-12);
    assert_close(outline_centroid(outline).x, 3, 1e-12);
    outline_unref(outline);
    Shape slot = shape_obround((Point){0, 0}, (Point){6, 8}, 4);
    outline = shape_to_outline(&slot, NULL);
    assert_non_null(outline);
    assert_close(outline_area(outline), 40 + M_PI * 4, 1e-12);
    assert_close(outline_length(outline), 20 + M_PI * 4, 1e-12);
    outline_unref(outline);
    Pose pose = pose_from_model(0, 0, 30 * ANGLE_DEGREE, true);
    Shape nest = shape_rectangle(pose, 20, 10, 2);
    outline = shape_to_outline(&nest, NULL);
    assert_non_null(outline);
    assert_close(outline_area(outline), 200 - (4 - M_PI) * 4, 1e-12);
    outline_unref(outline);
    nest = shape_rectangle(pose, 20, 10, 0);
    outline = shape_to_outline(&nest, NULL);
    size_t count;
    outline_ring(outline, 0, &count);
    assert_int_equal(count, 4);
    outline_unref(outline);
    Error error;
    Shape none = shape_circle((Point){3, 4}, 0);
    assert_null(shape_to_outline(&none, &error));
    assert_non_null(strstr(error.message, "no width"));
}

static void test_posed_outline(void **state)
{
    Random random = {12};
    const OutlineKind kind = {3, 12, 2, 8, 0.5, 0.4, 0.5};
    for (size_t i = 0; i < case_count(); i++) {
        Outline *outline = random_outline(&random, kind);
        Pose pose = random_pose(&random, 300);
        Outline *posed = outline_posed(outline, pose, NULL);
        assert_non_null(posed);
        assert_close(outline_area(posed), outline_area(outline), 1e-10);
        assert_close(outline_length(posed), outline_length(outline), 1e-10);
        Point centroid = pose_point(pose, outline_centroid(outline));
        assert_true(point_distance(centroid, outline_centroid(posed)) < 1e-10);
        Point p = {random_between(&random, -9, 9), random_between(&random, -9, 9)};
        assert_close(outline_distance(posed, pose_point(pose, p), NULL),
                     outline_distance(outline, p, NULL), 1e-10);
        Shape shape = shape_outline(outline, pose, 0);
        Box box = shape_box(&shape), loose = shape_loose_box(&shape), own = outline_box(posed);
        assert_true(fabs(box.x0 - own.x0) + fabs(box.y0 - own.y0) < 1e-10);
        assert_true(fabs(box.x1 - own.x1) + fabs(box.y1 - own.y1) < 1e-10);
        assert_true(loose.x0 <= box.x0 && loose.y1 >= box.y1);
        double size = fmax(box.x1 - box.x0, box.y1 - box.y0);
        assert_true(loose.x0 > box.x0 - size / 20 && loose.y1 < box.y1 + size / 20);
        outline_unref(posed);
        outline_unref(outline);
    }
}

/* The whole length within the shape, by GEOS's intersection, and the number of crossings. */
static void test_sections_against_geos(void **state)
{
    Random random = {13};
    const OutlineKind kind = {3, 12, 4, 12, 0.5, 0.4, 0.5};
    for (size_t i = 0; i < case_count(); i++) {
        Outline *outline = random_outline(&random, kind);
        Shape shape = shape_outline(outline, random_pose(&random, 5), 0);
        Point from = {random_between(&random, -15, 15), random_between(&random, -15, 15)};
        Point to = {random_between(&random, -15, 15), random_between(&random, -15, 15)};
        Stretch stretches[20];
        size_t count = shape_section(&shape, from, to, stretches, 20);
        assert_true(count <= 20);
        double ours = 0, theirs;
        for (size_t j = 0; j < count; j++) {
            ours += stretches[j].end - stretches[j].start;
            assert_true(j == 0 || stretches[j].start > stretches[j - 1].end);
        }
        Shape line = shape_obround(from, to, 0);
        GEOSGeometry *flat = flat_core(&shape, CHORD / 10), *cut = flat_core(&line, CHORD);
        GEOSGeometry *inside = GEOSIntersection(flat, cut);
        assert_true(GEOSLength(inside, &theirs));
        /* At a shallow angle a chord is met far from its arc. */
        assert_close(ours, theirs, 0.02);
        GEOSGeom_destroy(inside);
        GEOSGeom_destroy(flat);
        GEOSGeom_destroy(cut);
        outline_unref(outline);
    }
}

static void test_crossings_against_geos(void **state)
{
    Random random = {14};
    const OutlineKind kind = {3, 12, 4, 12, 0, 0, 0.5};
    for (size_t i = 0; i < case_count(); i++) {
        Outline *outlines[] = {random_outline(&random, kind), random_outline(&random, kind)};
        Shape a = shape_outline(outlines[0], random_pose(&random, 5), 0);
        Shape b = shape_outline(outlines[1], random_pose(&random, 5), 0);
        Point places[64];
        size_t count = shape_crossings(&a, &b, places, 64);
        GEOSGeometry *flat[] = {flat_core(&a, CHORD), flat_core(&b, CHORD)};
        GEOSGeometry *borders[] = {GEOSBoundary(flat[0]), GEOSBoundary(flat[1])};
        GEOSGeometry *common = GEOSIntersection(borders[0], borders[1]);
        assert_int_equal(count, GEOSisEmpty(common) ? 0 : GEOSGetNumGeometries(common));
        for (size_t j = 0; j < count; j++) {
            GEOSGeometry *place = flat_point(places[j]);
            double distance;
            assert_true(GEOSDistance(common, place, &distance));
            assert_true(distance < 1e-9);
            GEOSGeom_destroy(place);
        }
        GEOSGeom_destroy(common);
        for (int j = 0; j < 2; j++) {
            GEOSGeom_destroy(flat[j]);
            GEOSGeom_destroy(borders[j]);
            outline_unref(outlines[j]);
        }
    }
}

/* A grown outline made an outline has the same gaps, rooms and insides as the grown one, and GEOS's
 * area where GEOS's buffer is exact. */
static void test_grown_outlines_as_outlines(void **state)
{
    Random random = {15};
    const OutlineKind kind = {3, 10, 5, 12, 0.5, 0.5, 0.5};
    size_t refused = 0;
    for (size_t i = 0; i < case_count(); i++) {
        Outline *outline = random_outline(&random, kind);
        Shape shape =
            shape_outline(outline, random_pose(&random, 30), random_between(&random, 0.1, 3));
        Error error;
        Outline *grown = shape_to_outline(&shape, &error);
        if (!grown) {
            refused++;
            outline_unref(outline);
            continue;
        }
        Shape same = shape_outline(grown, POSE_IDENTITY, 0);
        Shape hole = shape_circle((Point){0, 0}, 1);
        hole.pose = random_pose(&random, 40);
        Gap gap, other;
        shape_gap(&shape, &hole, &gap);
        shape_gap(&same, &hole, &other);
        if (gap.distance > 0 || other.distance > 0) {
            assert_close(gap.distance, other.distance, 1e-5);
        }
        hole.pose = pose_after(shape.pose, random_pose(&random, 6));
        hole.growth = 0;
        shape_room(&shape, &hole, &gap);
        shape_room(&same, &hole, &other);
        if (gap.distance > 0 || other.distance > 0) {
            assert_close(gap.distance, other.distance, 1e-5);
        }
        Point p = {random_between(&random, -40, 40), random_between(&random, -40, 40)};
        if (fabs(outline_distance(grown, p, NULL)) > 1e-5) {
            assert_int_equal(outline_contains(grown, p), shape_contains(&shape, p));
        }
        outline_unref(grown);
        outline_unref(outline);
    }
    assert_true(refused < case_count() / 500);
}

static void be_quiet(const char *format, ...)
{
}

int main(void)
{
    initGEOS(be_quiet, be_quiet);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_section_of_a_hole_and_a_slot),
        cmocka_unit_test(test_section_through_an_opening),
        cmocka_unit_test(test_crossings),
        cmocka_unit_test(test_shapes_as_outlines),
        cmocka_unit_test(test_posed_outline),
        cmocka_unit_test(test_sections_against_geos),
        cmocka_unit_test(test_crossings_against_geos),
        cmocka_unit_test(test_grown_outlines_as_outlines),
    };
    int failed = cmocka_run_group_tests_name("section", tests, NULL, NULL);
    finishGEOS();
    return failed;
}
