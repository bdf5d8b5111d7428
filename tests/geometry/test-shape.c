/* Shapes, gaps and rooms against hand-worked cases. */
#include "geometry/shape.h"
#include "rings.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static void assert_close(double a, double b, double within)
{
    if (!(fabs(a - b) <= within)) {
        fail_msg("%.17g is not %.17g within %g", a, b, within);
    }
}

static void assert_place(Point p, double x, double y)
{
    if (!(point_distance(p, (Point){x, y}) < 1e-9)) {
        fail_msg("(%.12g, %.12g) is not (%.12g, %.12g)", p.x, p.y, x, y);
    }
}

static Pose pose_at(double x, double y, double degrees)
{
    return pose_from_model(length_from_mm(x), length_from_mm(y), angle_from_degrees(degrees),
                           false);
}

static double gap_of(const Shape *a, const Shape *b)
{
    Gap gap, back;
    shape_gap(a, b, &gap);
    shape_gap(b, a, &back);
    assert_close(gap.distance, back.distance, 1e-12);
    return gap.distance;
}

static double room_of(Shape outer, Shape inner)
{
    Gap gap;
    shape_room(&outer, &inner, &gap);
    if (gap.distance > 0) {
        assert_close(point_distance(gap.on_a, gap.on_b), gap.distance, 1e-9);
    }
    return gap.distance;
}

static void test_circles(void **state)
{
    Shape a = shape_circle((Point){0, 0}, 4), b = shape_circle((Point){6, 8}, 6);
    Gap gap;
    shape_gap(&a, &b, &gap);
    assert_close(gap.distance, 5, 1e-15);
    assert_place(gap.on_a, 1.2, 1.6);
    assert_place(gap.on_b, 4.2, 5.6);
    b = shape_circle((Point){3, 0}, 6);
    shape_gap(&a, &b, &gap);
    assert_close(gap.distance, -2, 1e-15);
    assert_place(gap.on_a, 2, 0);
    assert_place(gap.on_b, 0, 0);
    b = shape_circle((Point){0, 0}, 6);
    assert_close(gap_of(&a, &b), -5, 0);
}

static void test_obrounds_and_rectangles(void **state)
{
    Shape slot = shape_obround((Point){0, 0}, (Point){10, 0}, 4);
    Shape hole = shape_circle((Point){5, 7}, 2);
    assert_close(gap_of(&slot, &hole), 4, 1e-15);
    Shape across = shape_obround((Point){5, 3}, (Point){5, 9}, 1);
    assert_close(gap_of(&slot, &across), 0.5, 1e-15);
    across = shape_obround((Point){5, -3}, (Point){5, 9}, 1);
    assert_true(gap_of(&slot, &across) <= -2.5);
    /* 20 x 10 over all with radius 2, a quarter turn: 10 wide, corner at (3, 8) grown by 2. */
    Shape nest = shape_rectangle(pose_at(0, 0, 90), 20, 10, 2);
    assert_close(nest.half_length, 8, 0);
    assert_close(nest.half_width, 3, 0);
    hole = shape_circle((Point){6, 12}, 2);
    assert_close(gap_of(&nest, &hole), 5 - 3, 1e-14);
    hole = shape_circle((Point){1, 1}, 2);
    assert_true(gap_of(&nest, &hole) <= -3);
    Box box = shape_box(&nest);
    assert_close(box.x0, -5, 0);
    assert_close(box.y1, 10, 0);
    assert_true(shape_contains(&nest, (Point){5, 0}));
    assert_true(shape_contains(&nest, (Point){3 + sqrt(2) - 1e-9, 8 + sqrt(2) - 1e-9}));
    assert_false(shape_contains(&nest, (Point){3 + sqrt(2) + 1e-6, 8 + sqrt(2)}));
    /* Too great a corner radius makes an obround of it. */
    Shape round_one = shape_rectangle(POSE_IDENTITY, 20, 10, 99);
    assert_close(round_one.growth, 5, 0);
    assert_close(round_one.half_width, 0, 0);
}

static void test_obround_of_no_length_is_a_circle(void **state)
{
    Shape slot = shape_obround((Point){3, 4}, (Point){3, 4}, 2);
    Shape hole = shape_circle((Point){0, 0}, 2);
    assert_close(gap_of(&slot, &hole), 3, 1e-15);
}

/* Touching is 0, not an overlap; side by side, at corners, turned. */
static void test_touching_rectangles(void **state)
{
    for (int turn = 0; turn < 360; turn += 15) {
        Pose frame = pose_at(12.3, -4.5, turn);
        Shape a = shape_rectangle(pose_after(frame, pose_at(0, 0, 0)), 10, 6, 0);
        const struct {
            double x, y, least, most;
        } cases[] = {
            {10, 0, -1e-9, 1e-9},   {10, 3, -1e-9, 1e-9},    {10, 6, -1e-9, 1e-9},
            {0, 6, -1e-9, 1e-9},    {3, 6, -1e-9, 1e-9},     {3, 0, -10, -1e-3},
            {0, 0, -10, -1e-3},     {0, 5.9, -10, -1e-3},    {5, 0, -10, -1e-3},
            {9.999, 0, -10, -1e-4}, {10.001, 0, 9e-4, 2e-3},
        };
        for (size_t i = 0; i < COUNT(cases); i++) {
            Pose place = pose_after(frame, pose_at(cases[i].x, cases[i].y, 0));
            Shape b = shape_rectangle(place, 10, 6, 0);
            double gap = gap_of(&a, &b);
            if (!(gap >= cases[i].least && gap <= cases[i].most)) {
                fail_msg("case %zu at %d degrees: %.17g", i, turn, gap);
            }
        }
    }
}

/* A C-shaped outline, a small square in its mouth, and inside its material. */
static void test_gap_of_nested_outlines(void **state)
{
    Outline *c = RING(NULL, {0, 0, 0}, {30, 0, 0}, {30, 10, 0}, {10, 10, 0}, {10, 20, 0},
                      {30, 20, 0}, {30, 30, 0}, {0, 30, 0});
    Outline *square = RING(NULL, {-2, -2, 0}, {2, -2, 0}, {2, 2, 0}, {-2, 2, 0});
    assert_true(c && square);
    Shape a = shape_outline(c, POSE_IDENTITY, 0);
    Shape b = shape_outline(square, pose_at(20, 15, 0), 0);
    assert_close(gap_of(&a, &b), 3, 1e-14);
    b = shape_outline(square, pose_at(20, 15, 45), 0.5);
    assert_close(gap_of(&a, &b), 5 - 2 * sqrt(2) - 0.5, 1e-14);
    b = shape_outline(square, pose_at(5, 15, 10), 0.5);
    assert_true(gap_of(&a, &b) <= -0.5);
    b = shape_outline(square, pose_at(9, 15, 10), 0);
    assert_true(gap_of(&a, &b) < -1e-3);
    b = shape_outline(c, POSE_IDENTITY, 0);
    assert_true(gap_of(&a, &b) < -1e-3);
    Shape hole = shape_circle((Point){20, 15}, 2);
    assert_close(gap_of(&a, &hole), 4, 1e-14);
    hole = shape_circle((Point){5, 25}, 2);
    assert_true(gap_of(&a, &hole) <= -1);
    outline_unref(c);
    outline_unref(square);
}

static void test_rectangle_in_and_round_an_opening(void **state)
{
    const Vertex vertices[] = {{0, 0, 0},  {40, 0, 0},  {40, 40, 0},
                               {0, 40, 0}, {12, 20, 8}, {28, 20, 8}};
    Outline *plate = outline_new(vertices, (const size_t[]){0, 4, 6}, 2, NULL);
    assert_non_null(plate);
    Shape a = shape_outline(plate, POSE_IDENTITY, 0);
    Shape in = shape_rectangle(pose_at(20, 20, 30), 8, 6, 0);
    assert_close(gap_of(&a, &in), 3, 1e-13);
    Shape round_it = shape_rectangle(pose_at(20, 20, 30), 22, 20, 0);
    assert_true(gap_of(&a, &round_it) < -1e-3);
    /* It reaches over the opening, so it does not lie within. */
    assert_true(room_of(a, round_it) < 0);
    Shape beside = shape_rectangle(pose_at(6, 20, 0), 4, 10, 0);
    assert_close(room_of(a, beside), 4, 1e-13);
    /* Grown by 8 and more the opening is gone. */
    Shape grown = shape_outline(plate, POSE_IDENTITY, 9);
    assert_close(room_of(grown, round_it), 29 - (11 * cos(M_PI / 6) + 10 * sin(M_PI / 6)), 1e-12);
    outline_unref(plate);
}

static void test_room_in_a_circle(void **state)
{
    Shape outer = shape_circle((Point){1, 2}, 20);
    assert_close(room_of(outer, shape_circle((Point){4, 6}, 4)), 3, 1e-14);
    assert_close(room_of(outer, shape_circle((Point){1, 2}, 4)), 8, 0);
    assert_close(room_of(outer, shape_circle((Point){13, 2}, 4)), -4, 1e-14);
    Shape blank = shape_rectangle(pose_at(1, 2, 37), 12, 5, 0);
    assert_close(room_of(outer, blank), 10 - 6.5, 1e-14);
}

static void test_room_in_a_rectangle(void **state)
{
    Shape nest = shape_rectangle(pose_at(0, 0, 30), 30, 20, 5);
    /* A square blank of the same size less 0.2 all round meets the corner radius: its corner is at
     * (14.8, 9.8), 4.8 sqrt 2 from the radius's centre. */
    Shape blank = shape_rectangle(pose_at(0, 0, 30), 29.6, 19.6, 0);
    assert_close(room_of(nest, blank), 5 - 4.8 * sqrt(2), 1e-13);
    blank = shape_rectangle(pose_at(0, 0, 30), 29.6, 19.6, 5);
    assert_close(room_of(nest, blank), 0.2, 1e-13);
    blank = shape_rectangle(pose_at(0, 0, 120), 29.6, 19.6, 5);
    assert_close(room_of(nest, blank), -4.8, 1e-13);
}

/* The opening of a grown outline shrinks, and its corners stay sharp: an opening of 20 x 20 grown
 * by 3 is 14 x 14, so a place at (18, 20) of a plate from 0 to 60, opening 20 to 40, has the way to
 * the corner (23, 23). A place in the material across from its side is the growth further away. */
static void test_room_at_reflex_corners(void **state)
{
    const Vertex vertices[] = {{0, 0, 0},   {60, 0, 0},  {60, 60, 0}, {0, 60, 0},
                               {20, 20, 0}, {40, 20, 0}, {40, 40, 0}, {20, 40, 0}};
    Outline *plate = outline_new(vertices, (const size_t[]){0, 4, 8}, 2, NULL);
    assert_non_null(plate);
    Shape outer = shape_outline(plate, POSE_IDENTITY, 3);
    assert_close(room_of(outer, shape_circle((Point){18, 18}, 0)), 5 * sqrt(2), 1e-12);
    assert_close(room_of(outer, shape_circle((Point){18, 20}, 2)), sqrt(34) - 1, 1e-12);
    assert_close(room_of(outer, shape_circle((Point){18, 30}, 2)), 5 - 1, 1e-12);
    assert_close(room_of(outer, shape_circle((Point){1, 1}, 2)), 4 - 1, 1e-12);
    assert_close(room_of(outer, shape_circle((Point){22, 30}, 1)), 1 - 0.5, 1e-12);
    /* At an outer corner, which is rounded by the growth. */
    assert_close(room_of(outer, shape_circle((Point){-1, -1}, 1)), 3 - sqrt(2) - 0.5, 1e-12);
    assert_true(room_of(outer, shape_circle((Point){30, 30}, 1)) < 0);
    assert_true(room_of(outer, shape_circle((Point){-9, 30}, 1)) < 0);
    outline_unref(plate);
}

static void test_shapes_that_mean_nothing(void **state)
{
    Error error;
    Shape good = shape_circle((Point){1, 2}, 3);
    assert_true(shape_check(&good, &error));
    const double wrong[] = {NAN, INFINITY, -INFINITY, 1e9};
    for (size_t i = 0; i < COUNT(wrong); i++) {
        Shape shape = shape_circle((Point){wrong[i], 0}, 3);
        assert_false(shape_check(&shape, &error));
        assert_non_null(strstr(error.message, "place"));
        shape = shape_circle((Point){0, 0}, wrong[i]);
        assert_false(shape_check(&shape, &error));
        assert_non_null(strstr(error.message, "radius"));
        shape = shape_rectangle(POSE_IDENTITY, wrong[i], 5, 0);
        assert_false(shape_check(&shape, &error));
        shape = good;
        shape.pose.cosine = wrong[i];
        assert_false(shape_check(&shape, &error));
        assert_int_equal(error.kind, ERROR_GEOMETRY);
    }
    Shape shape = shape_circle((Point){0, 0}, -1);
    assert_false(shape_check(&shape, &error));
    shape = shape_outline(NULL, POSE_IDENTITY, 0);
    assert_false(shape_check(&shape, &error));
    assert_non_null(strstr(error.message, "missing"));
    shape = shape_rectangle(POSE_IDENTITY, -3, 5, 0);
    assert_false(shape_check(&shape, &error));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_circles),
        cmocka_unit_test(test_obrounds_and_rectangles),
        cmocka_unit_test(test_obround_of_no_length_is_a_circle),
        cmocka_unit_test(test_touching_rectangles),
        cmocka_unit_test(test_gap_of_nested_outlines),
        cmocka_unit_test(test_rectangle_in_and_round_an_opening),
        cmocka_unit_test(test_room_in_a_circle),
        cmocka_unit_test(test_room_in_a_rectangle),
        cmocka_unit_test(test_room_at_reflex_corners),
        cmocka_unit_test(test_shapes_that_mean_nothing),
    };
    return cmocka_run_group_tests_name("shape", tests, NULL, NULL);
}
