/* Regions against the closed forms of school geometry. GEOS is what works them out, so what is
 * tested is the way in and out. */
#include "geometry/region.h"
#include "rings.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define TOLERANCE 1e-4

static void assert_close(double a, double b, double within)
{
    if (!(fabs(a - b) <= within)) {
        fail_msg("%.17g is not %.17g within %g", a, b, within);
    }
}

static Region *circle(double x, double y, double radius)
{
    Shape shape = shape_circle((Point){x, y}, 2 * radius);
    Error error;
    Region *region = region_from_shape(&shape, TOLERANCE, &error);
    if (!region) {
        fail_msg("%s", error.message);
    }
    return region;
}

static Region *square(double x, double y, double side)
{
    Pose pose = POSE_IDENTITY;
    pose.x = x;
    pose.y = y;
    Shape shape = shape_rectangle(pose, side, side, 0);
    return region_from_shape(&shape, TOLERANCE, NULL);
}

static void test_flat_circle(void **state)
{
    Region *region = circle(3, 4, 5);
    assert_int_equal(region_ring_count(region), 1);
    assert_close(region_area(region), M_PI * 25, TOLERANCE * 32);
    assert_true(region_area(region) < M_PI * 25);
    size_t count;
    bool is_opening;
    const Point *points = region_ring(region, 0, &count, &is_opening);
    assert_false(is_opening);
    assert_true(count > 300 && count < 1000);
    for (size_t i = 0; i < count; i++) {
        assert_close(point_distance(points[i], (Point){3, 4}), 5, 1e-12);
        Point next = points[(i + 1) % count];
        Point middle = point_times(point_plus(points[i], next), 0.5);
        assert_true(point_distance(middle, (Point){3, 4}) >= 5 - TOLERANCE * 1.0001);
    }
    region_free(region);
}

/* Two circles of radius r at a distance of r: the lens is r^2 (2 pi / 3 - sqrt 3 / 2) (handbook of
 * plane areas, from memory; also by twice a segment of 120 degrees). */
static void test_lens(void **state)
{
    Region *a = circle(0, 0, 6), *b = circle(6, 0, 6);
    double lens = 36 * (2 * M_PI / 3 - sqrt(3) / 2), whole = M_PI * 36;
    Region *both = region_intersection(a, b, NULL);
    Region *either = region_union(a, b, NULL);
    Region *rest = region_difference(a, b, NULL);
    assert_close(region_area(both), lens, 0.005);
    assert_close(region_area(either), 2 * whole - lens, 0.01);
    assert_close(region_area(rest), whole - lens, 0.01);
    assert_close(region_box(both).x0, 0, TOLERANCE);
    assert_close(region_box(both).x1, 6, TOLERANCE);
    region_free(a);
    region_free(b);
    region_free(both);
    region_free(either);
    region_free(rest);
}

static void test_openings_and_parts(void **state)
{
    Region *plate = square(0, 0, 40), *hole = circle(5, 5, 3), *far = square(100, 0, 10);
    Region *with_hole = region_difference(plate, hole, NULL);
    assert_int_equal(region_ring_count(with_hole), 2);
    const Region *const all[] = {with_hole, far, hole};
    Region *parts = region_union_all(all, 2, NULL);
    assert_int_equal(region_ring_count(parts), 3);
    size_t openings = 0;
    for (size_t i = 0; i < 3; i++) {
        size_t count;
        bool is_opening;
        const Point *p = region_ring(parts, i, &count, &is_opening);
        double area = 0;
        for (size_t j = 0; j < count; j++) {
            area += point_cross(p[j], p[(j + 1) % count]) / 2;
        }
        assert_true((area < 0) == is_opening);
        openings += is_opening;
    }
    assert_int_equal(openings, 1);
    assert_close(region_area(parts), 1600 - M_PI * 9 + 100, 0.002);
    /* With the hole filled again it is two squares. */
    Region *filled = region_union_all(all, 3, NULL);
    assert_close(region_area(filled), 1700, 1e-9);
    Region *none = region_intersection(far, plate, NULL);
    assert_true(region_is_empty(none));
    assert_close(region_area(none), 0, 0);
    assert_true(box_is_empty(region_box(none)));
    Region *still = region_union(none, far, NULL);
    assert_close(region_area(still), 100, 1e-12);
    Region *nothing = region_union_all(all, 0, NULL);
    assert_true(region_is_empty(nothing));
    Region *const made[] = {plate, hole, far, with_hole, parts, filled, none, still, nothing};
    for (size_t i = 0; i < COUNT(made); i++) {
        region_free(made[i]);
    }
    region_free(NULL);
}

/* A square grown by r has its area, its length times r, and a circle more (Steiner's formula). */
static void test_offset(void **state)
{
    Region *plate = square(0, 0, 40);
    Region *grown = region_offset(plate, 3, TOLERANCE, NULL);
    assert_close(region_area(grown), 1600 + 160 * 3 + M_PI * 9, 0.002);
    Region *shrunk = region_offset(plate, -3, TOLERANCE, NULL);
    assert_close(region_area(shrunk), 34 * 34, 1e-9);
    Region *gone = region_offset(plate, -30, TOLERANCE, NULL);
    assert_true(region_is_empty(gone));
    Region *same = region_offset(plate, 0, TOLERANCE, NULL);
    assert_close(region_area(same), 1600, 1e-9);
    region_free(plate);
    region_free(grown);
    region_free(shrunk);
    region_free(gone);
    region_free(same);
}

static void test_outline_with_opening_turned_over(void **state)
{
    const Vertex vertices[] = {
        {0, -3, -3}, {0, 3, 0}, {10, 3, -3}, {10, -3, 0}, {6, 0, 1}, {4, 0, 1},
    };
    Outline *outline = outline_new(vertices, (const size_t[]){0, 4, 6}, 2, NULL);
    Pose pose = pose_from_model(50 * LENGTH_MM, 0, 30 * ANGLE_DEGREE, true);
    Shape shape = shape_outline(outline, pose, 0);
    Region *region = region_from_shape(&shape, TOLERANCE, NULL);
    assert_int_equal(region_ring_count(region), 2);
    assert_close(region_area(region), outline_area(outline), 0.005);
    region_free(region);
    /* Coarser than the arcs are high: their middles are kept, so that there is something left. */
    region = region_from_shape(&shape, 50, NULL);
    assert_non_null(region);
    assert_true(region_area(region) > 60);
    region_free(region);
    outline_unref(outline);
}

static void test_named_errors(void **state)
{
    Error error;
    Shape shape = shape_circle((Point){0, 0}, 5);
    const double wrong[] = {0, -1, NAN, INFINITY, 1e-9};
    for (size_t i = 0; i < COUNT(wrong); i++) {
        assert_null(region_from_shape(&shape, wrong[i], &error));
        assert_non_null(strstr(error.message, "tolerance"));
    }
    Region *region = region_from_shape(&shape, 0.01, &error);
    assert_null(region_offset(region, NAN, 0.01, &error));
    assert_null(region_offset(region, 1, 0, &error));
    assert_non_null(strstr(error.message, "tolerance"));
    region_free(region);
    shape = shape_circle((Point){0, 0}, 0);
    assert_null(region_from_shape(&shape, 0.01, &error));
    assert_int_equal(error.kind, ERROR_GEOMETRY);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_flat_circle),
        cmocka_unit_test(test_lens),
        cmocka_unit_test(test_openings_and_parts),
        cmocka_unit_test(test_offset),
        cmocka_unit_test(test_outline_with_opening_turned_over),
        cmocka_unit_test(test_named_errors),
    };
    return cmocka_run_group_tests_name("region", tests, NULL, NULL);
}
