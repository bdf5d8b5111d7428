/* Outlines against the closed forms of school geometry, and every way to refuse one. */
#include "geometry/outline.h"
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

static void assert_refused(Outline *outline, const Error *error, ErrorKind kind, const char *word)
{
    if (outline) {
        outline_unref(outline);
        fail_msg("taken, but should not be: \"%s\"", word);
    }
    assert_int_equal(error->kind, kind);
    if (!strstr(error->message, word)) {
        fail_msg("\"%s\" does not say \"%s\"", error->message, word);
    }
}

static void test_square(void **state)
{
    Error error;
    Outline *square = RING(&error, {0, 0, 0}, {4, 0, 0}, {4, 4, 0}, {0, 4, 0});
    assert_non_null(square);
    assert_close(outline_area(square), 16, 0);
    assert_close(outline_length(square), 16, 0);
    assert_close(outline_centroid(square).x, 2, 1e-15);
    assert_close(outline_centroid(square).y, 2, 1e-15);
    Box box = outline_box(square);
    assert_true(box.x0 == 0 && box.y0 == 0 && box.x1 == 4 && box.y1 == 4);
    Point nearest;
    assert_close(outline_distance(square, (Point){7, 8}, &nearest), 5, 1e-15);
    assert_true(nearest.x == 4 && nearest.y == 4);
    assert_close(outline_distance(square, (Point){1, 2}, &nearest), -1, 0);
    assert_true(nearest.x == 0 && nearest.y == 2);
    assert_true(outline_contains(square, (Point){4, 1}));
    assert_true(outline_contains(square, (Point){0, 0}));
    assert_true(outline_contains(square, (Point){3.9, 3.9}));
    assert_false(outline_contains(square, (Point){4.00001, 1}));
    assert_false(outline_contains(square, (Point){-5, 4}));
    assert_false(outline_contains(square, (Point){-5, 0}));
    outline_unref(square);
}

/* A circle of two arcs: pi r^2, 2 pi r. */
static void test_circle(void **state)
{
    Error error;
    Outline *circle = RING(&error, {13, 7, 5}, {3, 7, 5});
    assert_non_null(circle);
    assert_close(outline_area(circle), M_PI * 25, 1e-12);
    assert_close(outline_length(circle), M_PI * 10, 1e-12);
    assert_close(outline_centroid(circle).x, 8, 1e-13);
    assert_close(outline_centroid(circle).y, 7, 1e-13);
    Box box = outline_box(circle);
    assert_close(box.x0, 3, 1e-14);
    assert_close(box.y0, 2, 1e-14);
    assert_close(box.x1, 13, 1e-14);
    assert_close(box.y1, 12, 1e-14);
    for (int i = 0; i < 360; i++) {
        double c, s;
        angle_cos_sin(i * ANGLE_DEGREE, &c, &s);
        Point nearest;
        Point p = {8 + 9 * c, 7 + 9 * s}, q = {8 + 3 * c, 7 + 3 * s};
        assert_close(outline_distance(circle, p, &nearest), 4, 1e-13);
        assert_close(point_distance(nearest, (Point){8 + 5 * c, 7 + 5 * s}), 0, 1e-13);
        assert_close(outline_distance(circle, q, &nearest), -2, 1e-13);
        assert_true(outline_contains(circle, (Point){8 + 5 * c, 7 + 5 * s}));
        assert_false(outline_contains(circle, (Point){8 + 5.000001 * c, 7 + 5.000001 * s}));
    }
    outline_unref(circle);
}

/* A half disc: pi r^2 / 2 with its centroid 4 r / (3 pi) from the diameter (handbook of plane
 * areas, from memory), and the three-quarter disc, whose centroid follows from the quarter's
 * 4 r / (3 pi) along each axis. */
static void test_half_and_three_quarter_discs(void **state)
{
    Error error;
    Outline *half = RING(&error, {6, 0, 6}, {-6, 0, 0});
    assert_non_null(half);
    assert_close(outline_area(half), M_PI * 18, 1e-12);
    assert_close(outline_length(half), M_PI * 6 + 12, 1e-12);
    assert_close(outline_centroid(half).x, 0, 1e-14);
    assert_close(outline_centroid(half).y, 24 / (3 * M_PI), 1e-13);
    outline_unref(half);
    /* From (6, 0) round to (0, -6), which is 270 degrees: sagitta r + r cos 45. */
    Outline *most = RING(&error, {6, 0, 6 + 6 * sqrt(0.5)}, {0, -6, 0}, {0, 0, 0});
    assert_non_null(most);
    assert_close(outline_area(most), M_PI * 27, 1e-12);
    double quarter = 24 / (3 * M_PI);
    assert_close(outline_centroid(most).x, -quarter / 3, 1e-13);
    assert_close(outline_centroid(most).y, quarter / 3, 1e-13);
    assert_close(outline_box(most).x1, 6, 1e-14);
    assert_close(outline_box(most).x0, -6, 1e-14);
    assert_close(outline_box(most).y1, 6, 1e-14);
    assert_true(outline_contains(most, (Point){-3, -3}));
    assert_false(outline_contains(most, (Point){3, -3}));
    outline_unref(most);
}

/* An obround of 10 between centres and radius 3, given clockwise, with a round opening. */
static void test_ring_with_opening_in_either_direction(void **state)
{
    const Vertex vertices[] = {
        {0, -3, -3}, {0, 3, 0}, {10, 3, -3}, {10, -3, 0}, {6, 0, 1}, {4, 0, 1},
    };
    const size_t starts[] = {0, 4, 6};
    Error error;
    Outline *outline = outline_new(vertices, starts, 2, &error);
    assert_non_null(outline);
    assert_int_equal(outline_ring_count(outline), 2);
    assert_close(outline_area(outline), 60 + M_PI * 9 - M_PI, 1e-12);
    assert_close(outline_length(outline), 20 + M_PI * 6 + M_PI * 2, 1e-12);
    assert_close(outline_centroid(outline).x, 5, 1e-13);
    size_t count;
    const Vertex *outside = outline_ring(outline, 0, &count);
    assert_int_equal(count, 4);
    assert_true(outside[0].x == 0 && outside[0].y == -3 && outside[0].sagitta == 0);
    assert_true(outside[1].x == 10 && outside[1].y == -3 && outside[1].sagitta == 3);
    assert_true(outside[3].x == 0 && outside[3].y == 3 && outside[3].sagitta == 3);
    const Vertex *opening = outline_ring(outline, 1, &count);
    assert_true(opening[0].sagitta == -1 && opening[1].sagitta == -1);
    assert_false(outline_contains(outline, (Point){5, 0}));
    assert_true(outline_contains(outline, (Point){5, 1}));
    assert_true(outline_contains(outline, (Point){5, 1.5}));
    assert_true(outline_contains(outline, (Point){-2.9, 0}));
    Point nearest;
    assert_close(outline_distance(outline, (Point){5, 0.25}, &nearest), 0.75, 1e-14);
    outline_unref(outline);
}

static void test_references(void **state)
{
    Outline *outline = RING(NULL, {0, 0, 0}, {1, 0, 0}, {0, 1, 0});
    assert_ptr_equal(outline_ref(outline), outline);
    outline_unref(outline);
    assert_close(outline_area(outline), 0.5, 0);
    outline_unref(outline);
    assert_null(outline_ref(NULL));
    outline_unref(NULL);
}

/* An arc of 1.25 km radius, as a fitted curve can have: 1 um high over 100 mm. Its distance from a
 * place over its middle is the sagitta more, to the nanometre's thousandth. */
static void test_nearly_straight_arc(void **state)
{
    Error error;
    const double sagittas[] = {1e-3, 1e-5, 1e-6};
    for (size_t i = 0; i < COUNT(sagittas); i++) {
        double s = sagittas[i];
        Outline *outline = RING(&error, {5000, 5000, s}, {5100, 5000, 0}, {5050, 5050, 0});
        assert_non_null(outline);
        Point nearest;
        Point p = {5050, 4990};
        assert_close(outline_distance(outline, p, &nearest), 10 - s, 2e-12);
        assert_close(nearest.y, 5000 - s, 2e-12);
        /* Over a place a quarter of the way along: from the centre, in long doubles. */
        long double radius = (2500 + (long double)s * s) / (2 * (long double)s);
        long double over = 10 - (long double)s;
        long double expected =
            (625 + over * (2 * radius + over)) / (hypotl(25, radius + over) + radius);
        double quarter = outline_distance(outline, (Point){5025, 4990}, &nearest);
        assert_close(quarter, (double)expected, 2e-12);
        assert_close(outline_area(outline), 2500 + 100 * s * 2 / 3, 1e-9);
        assert_close(outline_box(outline).y0, 5000 - s, 2e-12);
        outline_unref(outline);
    }
}

static void test_too_few_points(void **state)
{
    Error error;
    assert_refused(outline_new(NULL, (const size_t[]){0}, 0, &error), &error, ERROR_GEOMETRY,
                   "at least one ring");
    assert_refused(RING(&error, {0, 0, 1}), &error, ERROR_GEOMETRY, "three points");
    assert_refused(RING(&error, {0, 0, 0}, {1, 0, 0}), &error, ERROR_GEOMETRY, "encloses nothing");
    const Vertex vertices[] = {{0, 0, 0}, {9, 0, 0}, {9, 9, 0}};
    assert_refused(outline_new(vertices, (const size_t[]){0, 3, 3}, 2, &error), &error,
                   ERROR_GEOMETRY, "three points");
    assert_string_equal(error.place, "rings[1]");
    assert_refused(outline_new(vertices, (const size_t[]){3, 0}, 1, &error), &error, ERROR_GEOMETRY,
                   "three points");
}

static void test_sides_of_no_length(void **state)
{
    Error error;
    assert_refused(RING(&error, {0, 0, 0}, {5, 0, 0}, {5, 0, 0}, {0, 5, 0}), &error, ERROR_GEOMETRY,
                   "no length");
    assert_string_equal(error.place, "rings[0].vertices[1]");
    /* The last point again as the first, as closed paths are often written. */
    assert_refused(RING(&error, {0, 0, 0}, {5, 0, 0}, {0, 5, 0}, {0, 0, 0}), &error, ERROR_GEOMETRY,
                   "no length");
    assert_string_equal(error.place, "rings[0].vertices[3]");
    assert_refused(RING(&error, {0, 0, 0}, {5, 0, 3}, {5, 0, 0}, {0, 5, 0}), &error, ERROR_GEOMETRY,
                   "no length");
}

static void test_numbers_that_are_none(void **state)
{
    Error error;
    const double wrong[] = {NAN, INFINITY, -INFINITY};
    for (size_t i = 0; i < COUNT(wrong); i++) {
        assert_refused(RING(&error, {0, 0, 0}, {wrong[i], 0, 0}, {0, 5, 0}), &error, ERROR_GEOMETRY,
                       "not a number");
        assert_refused(RING(&error, {0, wrong[i], 0}, {5, 0, 0}, {0, 5, 0}), &error, ERROR_GEOMETRY,
                       "not a number");
        assert_refused(RING(&error, {0, 0, 0}, {5, 0, 0}, {0, 5, wrong[i]}), &error, ERROR_GEOMETRY,
                       "not a number");
    }
    const double great[] = {1e9, -1e9, 10000.001, 1e300};
    for (size_t i = 0; i < COUNT(great); i++) {
        assert_refused(RING(&error, {0, 0, 0}, {great[i], 0, 0}, {0, 5, 0}), &error, ERROR_GEOMETRY,
                       "10,000 mm");
        assert_refused(RING(&error, {0, 0, 0}, {5, 0, great[i]}, {0, 5, 0}), &error, ERROR_GEOMETRY,
                       "10,000 mm");
    }
    Outline *widest = RING(&error, {-10000, -10000, 0}, {10000, -10000, 0}, {0, 10000, 0});
    assert_non_null(widest);
    outline_unref(widest);
}

static void test_self_crossing(void **state)
{
    Error error;
    /* A bow tie. */
    assert_refused(RING(&error, {0, 0, 0}, {5, 5, 0}, {5, 0, 0}, {0, 5, 0}), &error, ERROR_GEOMETRY,
                   "meets");
    assert_non_null(strstr(error.message, "(2.500, 2.500)"));
    /* A side that runs back over the one before. */
    assert_refused(RING(&error, {0, 0, 0}, {5, 0, 0}, {2, 0, 0}, {0, 5, 0}), &error, ERROR_GEOMETRY,
                   "meets");
    assert_refused(RING(&error, {0, 0, 0}, {5, 0, 0}, {-2, 0, 0}, {0, 5, 0}), &error,
                   ERROR_GEOMETRY, "meets");
    /* A corner that touches a side further on. */
    assert_refused(RING(&error, {0, 0, 0}, {6, 0, 0}, {6, 6, 0}, {3, 0, 0}, {0, 6, 0}), &error,
                   ERROR_GEOMETRY, "meets");
    /* Two corners at one place. */
    assert_refused(RING(&error, {0, 0, 0}, {2, 2, 0}, {4, 0, 0}, {4, 4, 0}, {2, 2, 0}, {0, 4, 0}),
                   &error, ERROR_GEOMETRY, "meets");
    /* An arc that bulges through the side across from it, and through its neighbour. */
    assert_refused(RING(&error, {0, 0, 0}, {8, 0, 0}, {8, 2, -3}, {0, 2, 0}), &error,
                   ERROR_GEOMETRY, "meets");
    assert_refused(RING(&error, {0, 0, 0}, {8, 0, -4.5}, {8, 4, 0}, {0, 4, 0}), &error,
                   ERROR_GEOMETRY, "meets");
    /* Twice round part of one circle, and out and back along one arc. */
    assert_refused(RING(&error, {5, 0, 5 + 5 * sqrt(0.5)}, {0, -5, 5}, {0, 5, 0}), &error,
                   ERROR_GEOMETRY, "meets");
    assert_refused(RING(&error, {5, 0, 2}, {-5, 0, -2}), &error, ERROR_GEOMETRY,
                   "encloses nothing");
}

static void test_openings_out_of_place(void **state)
{
    Error error;
    const Vertex outside[] = {{0, 0, 0},  {9, 0, 0},  {9, 9, 0}, {0, 9, 0},
                              {20, 1, 0}, {22, 1, 0}, {22, 3, 0}};
    assert_refused(outline_new(outside, (const size_t[]){0, 4, 7}, 2, &error), &error,
                   ERROR_GEOMETRY, "does not lie inside");
    assert_string_equal(error.place, "rings[1].vertices[0]");
    const Vertex through[] = {{0, 0, 0}, {9, 0, 0},  {9, 9, 0}, {0, 9, 0},
                              {8, 4, 0}, {12, 4, 0}, {8, 6, 0}};
    assert_refused(outline_new(through, (const size_t[]){0, 4, 7}, 2, &error), &error,
                   ERROR_GEOMETRY, "meets");
    const Vertex nested[] = {{0, 0, 0}, {9, 0, 0}, {9, 9, 0}, {0, 9, 0}, {1, 1, 0}, {8, 1, 0},
                             {8, 8, 0}, {1, 8, 0}, {3, 3, 0}, {5, 3, 0}, {4, 5, 0}};
    assert_refused(outline_new(nested, (const size_t[]){0, 4, 8, 11}, 3, &error), &error,
                   ERROR_GEOMETRY, "another opening");
    /* The first ring inside the second. */
    const Vertex inverted[] = {{1, 1, 0}, {2, 1, 0}, {1, 2, 0}, {0, 0, 0}, {9, 0, 0}, {0, 9, 0}};
    assert_refused(outline_new(inverted, (const size_t[]){0, 3, 6}, 2, &error), &error,
                   ERROR_GEOMETRY, "does not lie inside");
}

/* Lines tangent to arcs, all rounded to nanometres as a file holds them, are no crossing. */
static void test_rounded_tangents_are_let_through(void **state)
{
    srand(3);
    for (int i = 0; i < 4000; i++) {
        double radius = 0.2 + rand() % 10000 / 500.0, turn = rand() % 6283 / 1000.0;
        double sweep = 0.05 + rand() % 3000 / 1000.0, size = radius * 3 + 1;
        /* A stadium-like ring: a tangent line, an arc, a tangent line, and the way back outside. */
        Point c = {rand() % 300, rand() % 300};
        double a0 = turn, a1 = turn + sweep;
        Point p1 = {c.x + radius * cos(a0), c.y + radius * sin(a0)};
        Point p2 = {c.x + radius * cos(a1), c.y + radius * sin(a1)};
        Point p0 = {p1.x + size * sin(a0), p1.y - size * cos(a0)};
        Point p3 = {p2.x - size * sin(a1), p2.y + size * cos(a1)};
        double sagitta = radius * (1 - cos(sweep / 2));
        const Vertex vertices[] = {
            {round(p0.x * 1e6) / 1e6, round(p0.y * 1e6) / 1e6, 0},
            {round(p1.x * 1e6) / 1e6, round(p1.y * 1e6) / 1e6, round(sagitta * 1e6) / 1e6},
            {round(p2.x * 1e6) / 1e6, round(p2.y * 1e6) / 1e6, 0},
            {round(p3.x * 1e6) / 1e6, round(p3.y * 1e6) / 1e6, 0},
        };
        Error error = {0};
        Outline *outline = ring_outline(vertices, COUNT(vertices), &error);
        if (!outline) {
            fail_msg("%d: %s (radius %g, sweep %g)", i, error.message, radius, sweep);
        }
        outline_unref(outline);
    }
}

/* A comb of very many sides, and one of more than are taken. */
static void test_limits_of_count(void **state)
{
    const size_t most = OUTLINE_SIDES_MOST;
    Vertex *vertices = calloc(most + 2, sizeof *vertices);
    assert_non_null(vertices);
    for (size_t i = 0; i + 1 < most + 1; i++) {
        vertices[i] = (Vertex){(double)i / 10, i % 2 ? 10 : 5, 0};
    }
    vertices[most - 1] = (Vertex){1000, -5, 0};
    Error error;
    Outline *outline = ring_outline(vertices, most, &error);
    assert_non_null(outline);
    assert_true(outline_contains(outline, (Point){700, 4}));
    outline_unref(outline);
    vertices[most - 1] = (Vertex){(double)most / 10, 6, 0};
    vertices[most] = (Vertex){1000, -5, 0};
    assert_refused(ring_outline(vertices, most + 1, &error), &error, ERROR_LIMIT, "20001 sides");
    free(vertices);

    const size_t rings = OUTLINE_RINGS_MOST;
    Vertex *discs = calloc(2 * rings + 6, sizeof *discs);
    size_t *starts = calloc(rings + 2, sizeof *starts);
    assert_true(discs && starts);
    memcpy(discs, (const Vertex[]){{0, 0, 0}, {1000, 0, 0}, {1000, 1000, 0}, {0, 1000, 0}},
           4 * sizeof *discs);
    for (size_t i = 1; i <= rings; i++) {
        double x = 10 + (double)(i % 50) * 19, y = 10 + (double)(i / 50) * 19;
        starts[i] = 2 * i + 2;
        discs[2 * i + 2] = (Vertex){x, y, 4};
        discs[2 * i + 3] = (Vertex){x + 8, y, 4};
    }
    starts[rings + 1] = 2 * rings + 4;
    assert_refused(outline_new(discs, starts, rings + 1, &error), &error, ERROR_LIMIT,
                   "2001 rings");
    outline = outline_new(discs, starts, rings, &error);
    assert_non_null(outline);
    assert_close(outline_area(outline), 1e6 - ((double)rings - 1) * M_PI * 16, 1e-6);
    assert_false(outline_contains(outline, (Point){14 + 19 * 7, 10 + 19 * 9}));
    assert_true(outline_contains(outline, (Point){14 + 19 * 7, 16 + 19 * 9}));
    outline_unref(outline);
    free(discs);
    free(starts);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_square),
        cmocka_unit_test(test_circle),
        cmocka_unit_test(test_half_and_three_quarter_discs),
        cmocka_unit_test(test_ring_with_opening_in_either_direction),
        cmocka_unit_test(test_references),
        cmocka_unit_test(test_nearly_straight_arc),
        cmocka_unit_test(test_too_few_points),
        cmocka_unit_test(test_sides_of_no_length),
        cmocka_unit_test(test_numbers_that_are_none),
        cmocka_unit_test(test_self_crossing),
        cmocka_unit_test(test_openings_out_of_place),
        cmocka_unit_test(test_rounded_tangents_are_let_through),
        cmocka_unit_test(test_limits_of_count),
    };
    return cmocka_run_group_tests_name("outline", tests, NULL, NULL);
}
