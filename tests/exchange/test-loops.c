/* Joining, area and the recognition of circles. */
#include "exchange/loops.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void add(Loops *loops, const Vertex *vertices, size_t count, bool closed)
{
    Curve chain = {0};
    Error error;
    assert_true(curve_begin(&chain, (Point){vertices[0].x, vertices[0].y}, &error));
    for (size_t i = 1; i < count; i++)
        assert_true(curve_arc_to(&chain, (Point){vertices[i].x, vertices[i].y},
                                 vertices[i - 1].sagitta, &error));
    assert_true(loops_add(loops, &chain, NULL, 0, closed, 1, &error));
    curve_clear(&chain);
}

static void test_area(void **unused)
{
    Loops *loops = loops_new();
    const Vertex square[] = {{0, 0, 0}, {4, 0, 0}, {4, 3, 0}, {0, 3, 0}};
    const Vertex disc[] = {{100, 0, 5}, {110, 0, 5}, {100, 0, 0}};
    const Vertex bitten[] = {{0, 0, -2}, {4, 0, 0}, {4, 3, 0}, {0, 3, 0}};
    add(loops, square, 4, true);
    add(loops, disc, 3, true);
    add(loops, bitten, 4, true);
    assert_true(loop_area(loops_at(loops, 0)) == 12);
    assert_true(fabs(loop_area(loops_at(loops, 1)) - G_PI * 25) < 1e-9);
    assert_true(fabs(loop_area(loops_at(loops, 2)) - (12 - G_PI * 2)) < 1e-12);
    loops_free(loops);
}

static void test_joins_pieces_in_any_order_and_direction(void **unused)
{
    Loops *loops = loops_new();
    /* A bar with round ends in four pieces, two of them the wrong way round, with gaps of 4 um. */
    const Vertex bottom[] = {{0, 0, 0}, {10, 0, 0}};
    const Vertex top[] = {{0, 2, 0}, {10, 2, 0}};
    const Vertex right[] = {{10, 0.004, 1}, {10, 2, 0}};
    const Vertex left[] = {{0, 0, -1}, {0, 2, 0}};
    const Vertex stray[] = {{50, 50, 0}, {51, 50, 0}, {51, 51, 0}};
    add(loops, bottom, 2, false);
    add(loops, stray, 3, false);
    add(loops, top, 2, false);
    add(loops, left, 2, false);
    add(loops, right, 2, false);
    assert_int_equal(loops_join(loops), 1);
    assert_int_equal(loops->all->len, 2);
    const Loop *bar = loops_at(loops, 0);
    assert_true(bar->closed);
    assert_int_equal(bar->count, 4);
    assert_true(fabs(fabs(loop_area(bar)) - (20 + G_PI)) < 0.05);
    assert_false(loops_at(loops, 1)->closed);
    loops_free(loops);
}

static void test_gaps_that_are_too_wide_stay_open(void **unused)
{
    const double gaps[] = {0, 0.0099, 0.0101};
    for (int i = 0; i < 3; i++) {
        Loops *loops = loops_new();
        const Vertex chain[] = {{0, 0, 0}, {5, 0, 0}, {5, 5, 0}, {0, gaps[i], 0}};
        add(loops, chain, 4, false);
        assert_int_equal(loops_join(loops), i == 1);
        assert_int_equal(loops_at(loops, 0)->closed, i < 2);
        loops_free(loops);
    }
}

/* A circle by four Bézier curves with the usual control points; 0.5522847498 is what programs use.
 */
static void add_bezier_circle(Loops *loops, Point c, double r)
{
    static const double k = 0.5522847498;
    static const Point ends[] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}, {1, 0}};
    Curve chain = {0};
    Point nodes[4];
    Error error;
    assert_true(curve_begin(&chain, (Point){c.x + r, c.y}, &error));
    for (int i = 0; i < 4; i++) {
        Point a = ends[i], b = ends[i + 1];
        nodes[i] = (Point){c.x + r * a.x, c.y + r * a.y};
        Point c1 = {c.x + r * (a.x + k * b.x), c.y + r * (a.y + k * b.y)};
        Point c2 = {c.x + r * (b.x + k * a.x), c.y + r * (b.y + k * a.y)};
        Point p = {c.x + r * b.x, c.y + r * b.y};
        assert_true(curve_cubic_to(&chain, c1, c2, p, CURVE_TOLERANCE, &error));
    }
    assert_true(loops_add(loops, &chain, nodes, 4, true, 1, &error));
    curve_clear(&chain);
}

static void test_bezier_circles_are_round(void **unused)
{
    const double diameters[] = {0.5, 1, 4.7879, 6.35, 25, 100};
    for (int i = 0; i < 6; i++) {
        Loops *loops = loops_new();
        Point centre;
        double diameter;
        bool straight;
        add_bezier_circle(loops, (Point){31.75, 12.7}, diameters[i] / 2);
        assert_true(loop_is_round(loops_at(loops, 0), &centre, &diameter, &straight));
        assert_false(straight);
        assert_true(fabs(diameter - diameters[i]) < 1e-9);
        assert_true(point_distance(centre, (Point){31.75, 12.7}) < 1e-9);
        loops_free(loops);
    }
}

static Loops *polygon(int sides, double squash)
{
    Loops *loops = loops_new();
    Vertex *v = g_new0(Vertex, sides);
    for (int i = 0; i < sides; i++) {
        v[i].x = 5 * cos(2 * G_PI * i / sides);
        v[i].y = 5 * squash * sin(2 * G_PI * i / sides);
    }
    add(loops, v, sides, true);
    g_free(v);
    return loops;
}

static void test_what_is_not_round(void **unused)
{
    Point centre;
    double diameter;
    bool straight;
    const struct {
        int sides;
        double squash;
        bool is_round;
    } cases[] = {{6, 1, false}, {12, 1, false}, {23, 1, false},
                 {24, 1, true}, {72, 1, true},  {72, 0.99, false}};
    for (size_t i = 0; i < G_N_ELEMENTS(cases); i++) {
        Loops *loops = polygon(cases[i].sides, cases[i].squash);
        assert_int_equal(loop_is_round(loops_at(loops, 0), &centre, &diameter, &straight),
                         cases[i].is_round);
        if (cases[i].is_round) {
            assert_true(straight);
            assert_true(fabs(diameter - 10) < 1e-6);
        }
        loops_free(loops);
    }

    /* A half disc, and an obround. */
    Loops *loops = loops_new();
    const Vertex half[] = {{0, 0, 2}, {4, 0, 0}};
    const Vertex obround[] = {{0, 0, 0}, {1, 0, 1}, {1, 2, 0}, {0, 2, 1}};
    add(loops, half, 2, true);
    add(loops, obround, 4, true);
    assert_false(loop_is_round(loops_at(loops, 0), &centre, &diameter, &straight));
    assert_false(loop_is_round(loops_at(loops, 1), &centre, &diameter, &straight));
    loops_free(loops);
}

static void test_limits(void **unused)
{
    Error error;
    Curve chain = {0};
    Loops *loops = loops_new();
    assert_true(curve_begin(&chain, (Point){0, 0}, &error));
    assert_true(curve_line_to(&chain, (Point){1, 0}, &error));
    for (int i = 0; i < LOOPS_MOST; i++)
        assert_true(loops_add(loops, &chain, NULL, 0, false, 1, &error));
    assert_false(loops_add(loops, &chain, NULL, 0, false, 1, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    loops_free(loops);

    loops = loops_new();
    assert_true(curve_begin(&chain, (Point){0, 0}, &error));
    for (int i = 1; i < 20000; i++)
        assert_true(curve_line_to(&chain, (Point){i / 1000.0, i % 2}, &error));
    for (int i = 0; i < LOOP_SIDES_MOST / 20000; i++)
        assert_true(loops_add(loops, &chain, NULL, 0, true, 1, &error));
    assert_true(curve_begin(&chain, (Point){0, 0}, &error));
    assert_true(curve_line_to(&chain, (Point){1, 0}, &error));
    assert_false(loops_add(loops, &chain, NULL, 0, false, 1, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    loops_free(loops);
    curve_clear(&chain);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_area),
        cmocka_unit_test(test_joins_pieces_in_any_order_and_direction),
        cmocka_unit_test(test_gaps_that_are_too_wide_stay_open),
        cmocka_unit_test(test_bezier_circles_are_round),
        cmocka_unit_test(test_what_is_not_round),
        cmocka_unit_test(test_limits),
    };
    return cmocka_run_group_tests_name("exchange-loops", tests, NULL, NULL);
}
