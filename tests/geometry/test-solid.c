/* Solids against closed forms: elementary geometry, worked out beside each case. */
#include "geometry/solid.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#define CLOSE 1e-9

static void assert_near(double value, double expected, double within)
{
    if (!(fabs(value - expected) <= within)) {
        fail_msg("%.15g, %.15g expected", value, expected);
    }
}

static void assert_gap(const Solid *a, const Solid *b, double expected)
{
    SolidGap gap, back;
    solid_gap(a, b, &gap);
    solid_gap(b, a, &back);
    assert_near(gap.distance, expected, CLOSE);
    assert_near(back.distance, expected, CLOSE);
    assert_near(space_distance(gap.on_a, gap.on_b), fabs(expected), CLOSE);
    if (expected > 0) {
        assert_true(solid_contains(a, gap.on_a) && solid_contains(b, gap.on_b));
        assert_true(solid_gap_within(a, b, expected + CLOSE, &back));
        assert_false(solid_gap_within(a, b, expected - CLOSE, &back));
    }
}

static Solid bar(double x0, double y0, double z0, double x1, double y1, double z1, double diameter)
{
    return solid_round((Space){x0, y0, z0}, (Space){x1, y1, z1}, diameter, diameter);
}

/* A block about a middle, with its own directions turned about Z by an angle in radians. */
static Solid block(Space middle, double turn, double length, double width, double height)
{
    Placement at = {middle, {cos(turn), sin(turn), 0}, {-sin(turn), cos(turn), 0}, {0, 0, 1}};
    Shape shape = shape_rectangle(POSE_IDENTITY, length, width, 0);
    return solid_of_shape(&shape, &at, -height / 2, height / 2);
}

static void test_parallel_bars(void **state)
{
    /* Side by side: 13 between the axes (5, 12), radii 2 and 3. */
    Solid a = bar(0, 0, 0, 0, 0, 20, 4), b = bar(5, 12, 10, 5, 12, 40, 6);
    assert_gap(&a, &b, 8);
    /* The other way up. */
    b = bar(5, 12, 40, 5, 12, 10, 6);
    assert_gap(&a, &b, 8);
    /* 6 further up as well: 8 and 6 make 10, rim to rim. */
    b = bar(5, 12, 26, 5, 12, 40, 6);
    assert_gap(&a, &b, 10);
    /* One over the other, and lying in each other's length. */
    b = bar(1, 1, 21.5, 1, 1, 30, 20);
    assert_gap(&a, &b, 1.5);
    b = bar(1, 1, -3.25, 1, 1, -30, 1);
    assert_gap(&a, &b, 3.25);
    /* The same along a slope of 5 in 13. */
    Space way = {5.0 / 13, 0, 12.0 / 13};
    a = solid_round((Space){1, 2, 3}, space_plus((Space){1, 2, 3}, space_times(way, 30)), 4, 4);
    Space from = space_plus((Space){1, 12, 3}, space_times(way, 10));
    b = solid_round(from, space_plus(from, space_times(way, 7)), 5, 5);
    assert_gap(&a, &b, 10 - 2 - 2.5);
}

static void test_crossing_bars(void **state)
{
    /* The axes cross at a right angle, 10 apart. */
    Solid a = bar(-20, 0, 0, 20, 0, 0, 6), b = bar(3, -20, 10, 3, 20, 10, 4);
    assert_gap(&a, &b, 5);
    /* At any angle the common perpendicular is as long. */
    for (int degrees = 1; degrees < 180; degrees += 7) {
        double angle = degrees * M_PI / 180;
        b = bar(1 - 500 * cos(angle), -500 * sin(angle), 10, 1 + 500 * cos(angle), 500 * sin(angle),
                10, 4);
        assert_gap(&a, &b, 5);
    }
    /* Radii of 3 and 7.5 overlap by 0.5: the axes' perpendicular is the shortest way out. */
    b = bar(3, -40, 10, 3, 40, 10, 15);
    assert_gap(&a, &b, -0.5);
    /* A bar's flat end before the side of another. */
    b = bar(4, 5, 0, 4, 30, 0, 2);
    assert_gap(&a, &b, 2);
}

/* The case that a plate has: a hole square to a face at 6.5 degrees, and one square to the top, in
 * one upright plane across the break line. */
static void test_leaning_bars(void **state)
{
    double lean = 6.5 * M_PI / 180;
    /* The leaning bar's axis begins at (0, 0, 0) and goes down along (sin, 0, -cos). An upright
     * bar, its axis at x = 10 and down to z = -30, is nearest at a corner of the two side lines.
     * Down to -20 along it, the leaning bar of radius 2 ends at its right lower corner
     * (20 sin + 2 cos, -20 cos + 2 sin). */
    Solid a = bar(0, 0, 0, 20 * sin(lean), 0, -20 * cos(lean), 4);
    Solid b = bar(10, 0, 0, 10, 0, -30, 6);
    assert_gap(&a, &b, 10 - 3 - (20 * sin(lean) + 2 * cos(lean)));
    /* Longer than the upright one: then that one's lower corner, (7, -30), is nearest to the
     * leaning side, whose distance from the axis' line is 7 cos - 30 sin. */
    a = bar(0, 0, 0, 60 * sin(lean), 0, -60 * cos(lean), 4);
    assert_gap(&a, &b, 7 * cos(lean) - 30 * sin(lean) - 2);
    /* In planes 6 apart side by side, where the axes pass each other within both lengths. */
    b = bar(2, 6, 0, 2, 6, -30, 6);
    assert_gap(&a, &b, 6 - 2 - 3);
}

static void test_bar_and_block(void **state)
{
    Solid base = block((Space){0, 0, -5}, 0.3, 100, 80, 10);
    /* A bar that leans by 20 degrees over the top: the lowest of its rim is 4 sin(20) below its
     * axis' end, which is 6 up. */
    double lean = 20 * M_PI / 180;
    Solid a = bar(0, 0, 6, 30 * sin(lean), 0, 6 + 30 * cos(lean), 8);
    assert_gap(&a, &base, 6 - 4 * sin(lean));
    /* Flat over it, and beside its side. */
    a = bar(-3, 1, 7, 9, 4, 7, 8);
    assert_gap(&a, &base, 3);
    base = block((Space){0, 0, -5}, 0, 100, 80, 10);
    a = bar(57, 0, -30, 57, 0, 30, 8);
    assert_gap(&a, &base, 3);
    /* Beside its upright edge at (50, 40): 3, 4 and 5. */
    a = bar(53, 44, -30, 53, 44, 30, 2);
    assert_gap(&a, &base, 4);
    /* A bar square across the edge at 45 degrees, its axis (8, 8) from it. */
    a = bar(58 - 30, 0, 8 + 30, 58 + 30, 0, 8 - 30, 4);
    assert_gap(&a, &base, 8 * sqrt(2) - 2);
    /* The corner (50, 40, 0) before the corner of another block: 3, 4 and 12 make 13. */
    Solid other = block((Space){50 + 3 + 5, 40 + 4 + 5, 12 + 5}, 0, 10, 10, 10);
    assert_gap(&other, &base, 13);
    /* In it by 2 from above, and wholly in its middle. */
    other = block((Space){3, 2, 3}, 0.7, 10, 10, 10);
    assert_gap(&other, &base, -2);
    other = block((Space){0, 0, -5}, 0.7, 2, 2, 2);
    assert_gap(&other, &base, -6);
}

static void test_cones(void **state)
{
    /* A drill point of 118 degrees over a flat: its tip. */
    double height = 5 / tan(59 * M_PI / 180);
    Solid base = block((Space){0, 0, -5}, 0, 100, 80, 10);
    Solid point = solid_round((Space){1, 2, 4 + height}, (Space){1, 2, 4}, 10, 0);
    assert_gap(&point, &base, 4);
    /* Tip to tip, 5 to the side and 12 down: 22.6 degrees off the axes, and the tips' normals
     * reach 31. */
    Solid other = solid_round((Space){1, 7, -8 - height}, (Space){1, 7, -8}, 10, 0);
    assert_gap(&point, &other, 13);
    /* A cone of 90 degrees beside a bar along Y: the bar's axis is (6, 6) from the tip, square to
     * the cone's side, which reaches as far. */
    Solid cone = solid_round((Space){0, 0, 10}, (Space){0, 0, 0}, 20, 0);
    Solid beside = bar(6, -20, 0, 6, 20, 0, 2);
    assert_gap(&cone, &beside, 6 / sqrt(2) - 1);
    /* Below the tip, off the side: from the tip itself. */
    beside = bar(3, -20, -4, 3, 20, -4, 2);
    assert_gap(&cone, &beside, 4);
    /* A cone in the mouth of another stands off by the height between over root 2. */
    Solid above = solid_round((Space){0, 0, 18}, (Space){0, 0, 13}, 10, 0);
    assert_gap(&cone, &above, 3);
    Solid frustum = solid_round((Space){30, 0, 0}, (Space){30, 0, 10}, 20, 10);
    /* From x = 20 at z = 0 to x = 25 at z = 10; the point (18, 9) is off its line by
     * |10 (18 - 20) - 5 * 9| over root 125. */
    Solid needle = bar(18, -20, 9, 18, 20, 9, 1e-6);
    assert_gap(&frustum, &needle, 65 / sqrt(125) - 5e-7);
}

static void test_slots(void **state)
{
    Placement top = PLACEMENT_IDENTITY;
    /* A slot 30 long and 10 wide along X, 5 deep, and a hole from a face square to Y. */
    Shape slot_shape = shape_obround((Point){-10, 0}, (Point){10, 0}, 10);
    Solid slot = solid_of_shape(&slot_shape, &top, -5, 0);
    Solid hole = bar(4, -30, -9, 4, 30, -9, 6);
    assert_gap(&slot, &hole, 1);
    hole = bar(4, -30, -3, 4, -7, -3, 6);
    assert_gap(&slot, &hole, 2);
    /* Beyond the round end, along X at y = 3: 4 of the 5 in radius are left there. */
    hole = bar(20, 3, -2, 40, 3, -2, 1e-6);
    assert_gap(&slot, &hole, sqrt(100 + 9) - 5 - 5e-7 * 3 / sqrt(109));
    /* Round corners of 4: from (16, 11) the corner's centre (6, 6) is root 125 off. */
    Shape pocket_shape = shape_rectangle(POSE_IDENTITY, 20, 20, 4);
    Solid pocket = solid_of_shape(&pocket_shape, &top, -5, 0);
    hole = bar(16, 11, -50, 16, 11, 50, 2);
    assert_gap(&pocket, &hole, sqrt(125) - 4 - 1);
}

static Outline *outline_of(const Vertex *vertices, size_t count)
{
    const size_t starts[] = {0, count};
    Outline *outline = outline_new(vertices, starts, 1, NULL);
    assert_non_null(outline);
    return outline;
}

static void test_outlines(void **state)
{
    /* An L: 40 by 40 with the quarter beyond (10, 10) left out, 5 high. */
    const Vertex corners[] = {{0, 0, 0},   {40, 0, 0},  {40, 10, 0},
                              {10, 10, 0}, {10, 40, 0}, {0, 40, 0}};
    Outline *outline = outline_of(corners, 6);
    Shape shape = shape_outline(outline, POSE_IDENTITY, 0);
    Placement plain = PLACEMENT_IDENTITY;
    Solid part = solid_of_shape(&shape, &plain, 0, 5);
    /* Upright in the notch; lying in the notch; over it; a leaning one over its arm. */
    Solid pin = bar(16, 18, -20, 16, 18, 20, 6);
    assert_gap(&part, &pin, 3);
    pin = bar(15, 14, 2, 35, 14, 2, 6);
    assert_gap(&part, &pin, 1);
    pin = bar(5, 5, 7.5, 5, 5, 20, 6);
    assert_gap(&part, &pin, 2.5);
    pin = bar(30, 5, 8, 60, 5, 48, 2);
    assert_gap(&part, &pin, 8 - 0.6 - 5);
    /* Leaning away over the notch by 3 in 5 along Y: of the rim about (20, 17, 9) the place 2 * 4 /
     * 5 towards the arm and 2 * 3 / 5 up is nearest to the arm's edge at y = 10, z = 5. */
    pin = bar(20, 17, 9, 20, 17 + 18, 9 + 24, 4);
    assert_gap(&part, &pin, hypot(17 - 1.6 - 10, 9 + 1.2 - 5));
    /* Through it, and wholly inside. */
    SolidGap gap;
    pin = bar(30, 5, -10, 33, 5, 20, 2);
    solid_gap(&part, &pin, &gap);
    assert_true(gap.distance < 0 && !gap.exact);
    pin = bar(30, 5, 2, 31, 5, 3, 1);
    solid_gap(&part, &pin, &gap);
    assert_true(gap.distance < 0 && !gap.exact);
    solid_gap(&pin, &part, &gap);
    assert_true(gap.distance < 0 && !gap.exact);
    outline_unref(outline);
}

/* Arcs are exact where the solids are drawn out one way, and to the tolerance where not. */
static void test_arcs(void **state)
{
    /* A disc of radius 20 with an opening of radius 12, as two half circles each, 5 high. */
    const Vertex rings[] = {{20, 0, 20}, {-20, 0, 20}, {12, 0, 12}, {-12, 0, 12}};
    const size_t starts[] = {0, 2, 4};
    Outline *outline = outline_new(rings, starts, 2, NULL);
    assert_non_null(outline);
    Shape shape = shape_outline(outline, POSE_IDENTITY, 0);
    Placement plain = PLACEMENT_IDENTITY;
    Solid ring = solid_of_shape(&shape, &plain, -5, 0);
    Solid pin = bar(3, 4, -20, 3, 4, 20, 6);
    assert_gap(&ring, &pin, 12 - 5 - 3);
    SolidGap gap;
    solid_gap(&ring, &pin, &gap);
    assert_true(gap.exact);
    /* A pin of 4 leans by 30 degrees in the plane of X through the opening's middle, at z = 0: at
     * z = -5 its axis is at x = -5 tan(30), and the rim of the opening at (-12, 0, -5) is nearest;
     * it is 12 cos(30) - 5 sin(30) from the axis. */
    double lean = 30 * M_PI / 180;
    pin = bar(-40 * sin(lean), 0, -40 * cos(lean), 40 * sin(lean), 0, 40 * cos(lean), 4);
    solid_gap(&ring, &pin, &gap);
    assert_near(gap.distance, 12 * cos(lean) - 5 * sin(lean) - 2, SOLID_TOLERANCE);
    assert_false(gap.exact);
    /* Across outside, 25 from the middle, half way up. */
    pin = bar(-30, 25, -2, 30, 25, -2, 4);
    solid_gap(&pin, &ring, &gap);
    assert_near(gap.distance, 25 - 20 - 2, SOLID_TOLERANCE);
    /* Grown by 1.5, as a nest is; a cone's tip over it. */
    ring.growth_bottom = ring.growth_top = 1.5;
    solid_gap(&pin, &ring, &gap);
    assert_near(gap.distance, 25 - 21.5 - 2, SOLID_TOLERANCE);
    Solid cone = solid_round((Space){15, 1, 9}, (Space){15, 1, 2}, 10, 0);
    assert_gap(&ring, &cone, 2);
    outline_unref(outline);
}

/* Two outlines, of two faces. */
static void test_two_outlines(void **state)
{
    const Vertex corners[] = {{0, 0, 0},   {40, 0, 0},  {40, 10, 0},
                              {10, 10, 0}, {10, 40, 0}, {0, 40, 0}};
    Outline *outline = outline_of(corners, 6);
    Shape shape = shape_outline(outline, POSE_IDENTITY, 0);
    Placement plain = PLACEMENT_IDENTITY;
    Solid flat = solid_of_shape(&shape, &plain, 0, 5);
    /* The other one stands on the XZ plane's parallel at y = 13, in the notch, its thickness going
     * on along Y: 3 from the arm. */
    Placement upright = {{12, 13, 0}, {1, 0, 0}, {0, 0, 1}, {0, 1, 0}};
    Solid other = solid_of_shape(&shape, &upright, 0, 4);
    assert_gap(&flat, &other, 2);
    upright.origin = (Space){14, 13, 2};
    other = solid_of_shape(&shape, &upright, 0, 4);
    assert_gap(&flat, &other, 3);
    /* Over its arm by 1.25. */
    upright.origin = (Space){14, 3, 6.25};
    other = solid_of_shape(&shape, &upright, 0, 4);
    assert_gap(&flat, &other, 1.25);
    /* Standing through it. */
    SolidGap gap;
    upright.origin = (Space){14, 3, -6};
    other = solid_of_shape(&shape, &upright, 0, 4);
    solid_gap(&flat, &other, &gap);
    assert_true(gap.distance < 0);
    /* Lying one way: notch in notch, turned half round. */
    Placement turned = {{54, 49, 2}, {-1, 0, 0}, {0, -1, 0}, {0, 0, 1}};
    other = solid_of_shape(&shape, &turned, 0, 4);
    assert_gap(&flat, &other, 4);
    outline_unref(outline);
}

static void test_contains(void **state)
{
    Solid cone = solid_round((Space){0, 0, 10}, (Space){0, 0, 0}, 20, 0);
    assert_true(solid_contains(&cone, (Space){0, 0, 0}));
    assert_true(solid_contains(&cone, (Space){5, 0, 5}));
    assert_false(solid_contains(&cone, (Space){5.001, 0, 5}));
    assert_true(solid_contains(&cone, (Space){6, 8, 10}));
    assert_false(solid_contains(&cone, (Space){0, 0, 10.001}));
    assert_false(solid_contains(&cone, (Space){0, 0, -0.001}));
}

static void test_box(void **state)
{
    /* A bar of radius 2 along (3, 0, 4) / 5: its ends' discs reach 2 * 4 / 5 in X and 2 * 3 / 5 in
     * Z. */
    Solid a = bar(1, 2, 3, 1 + 3, 2, 3 + 4, 4);
    SpaceBox box = solid_box(&a);
    assert_near(box.least.x, 1 - 1.6, CLOSE);
    assert_near(box.most.x, 4 + 1.6, CLOSE);
    assert_near(box.least.y, 0, CLOSE);
    assert_near(box.most.y, 4, CLOSE);
    assert_near(box.least.z, 3 - 1.2, CLOSE);
    assert_near(box.most.z, 7 + 1.2, CLOSE);
    /* Along its own axis it is 5 long. */
    box = solid_box_in(&a, &a.placement);
    assert_near(box.least.z, 0, CLOSE);
    assert_near(box.most.z, 5, CLOSE);
    assert_near(box.most.x, 2, CLOSE);
}

static void assert_refused(Solid solid)
{
    Error error = {.kind = ERROR_NONE};
    assert_false(solid_check(&solid, &error));
    assert_int_equal(error.kind, ERROR_GEOMETRY);
}

static void test_refused(void **state)
{
    Solid good = bar(0, 0, 0, 0, 0, 10, 4), bad;
    assert_true(solid_check(&good, NULL));
    bad = good;
    bad.growth_top = -1;
    assert_refused(bad);
    bad = good;
    bad.top = NAN;
    assert_refused(bad);
    bad = good;
    bad.top = bad.bottom - 1;
    assert_refused(bad);
    bad = good;
    bad.placement.up = bad.placement.along;
    assert_refused(bad);
    bad = good;
    bad.placement.normal.x = NAN;
    assert_refused(bad);
    bad = good;
    bad.placement.origin.y = 1e9;
    assert_refused(bad);
    bad = good;
    bad.core = CORE_OUTLINE;
    assert_refused(bad);
    bad = good;
    bad.core = CORE_SEGMENT;
    bad.half_length = INFINITY;
    assert_refused(bad);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_parallel_bars), cmocka_unit_test(test_crossing_bars),
        cmocka_unit_test(test_leaning_bars),  cmocka_unit_test(test_bar_and_block),
        cmocka_unit_test(test_cones),         cmocka_unit_test(test_slots),
        cmocka_unit_test(test_outlines),      cmocka_unit_test(test_arcs),
        cmocka_unit_test(test_two_outlines),  cmocka_unit_test(test_contains),
        cmocka_unit_test(test_box),           cmocka_unit_test(test_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
