/* Numbers, lengths, transforms and path data as SVG writes them. The expected values come from SVG
 * 1.1 (second edition), sections 7.6, 7.8, 8.3 and 9.2, and CSS Values and Units 3 section 5.2,
 * from memory where they are no plain arithmetic. */
#include "exchange/svg-number.h"
#include "exchange/svg-pen.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void test_numbers(void **unused)
{
    static const struct {
        const char *text;
        double value;
        const char *rest;
    } good[] = {
        {"1", 1, ""},
        {"-1.5", -1.5, ""},
        {"+.5.5", .5, ".5"},
        {"1-2", 1, "-2"},
        {"1e2", 100, ""},
        {"1E-2x", .01, "x"},
        {"2em", 2, "em"},
        {"5.", 5, ""},
        {"1e+", 1, "e+"},
        {"0x10", 0, "x10"},
        {"1,2", 1, ",2"},
        {"1e9", 1e9, ""},
        {"00012", 12, ""},
        {"1.5.", 1.5, "."},
        {"-0", 0, ""},
        {"0.00000000000000000000000000000000000000000000000000000000000000000001", 1e-68, ""},
    };
    static const char *const bad[] = {"",      "-",           ".",    "e5",      "+-1",
                                      "nan",   "inf",         "-inf", "x",       "1e10",
                                      "1e999", "-2000000000", "--1",  "\xc2\xbd"};
    for (size_t i = 0; i < G_N_ELEMENTS(good); i++) {
        const char *at = good[i].text;
        double value;
        assert_true(svg_number_read(&at, &value));
        assert_true(fabs(value - good[i].value) <= 1e-15 * fabs(value));
        assert_string_equal(at, good[i].rest);
    }
    for (size_t i = 0; i < G_N_ELEMENTS(bad); i++) {
        const char *at = bad[i];
        double value;
        assert_false(svg_number_read(&at, &value));
        assert_ptr_equal(at, bad[i]);
    }
}

static void test_lengths(void **unused)
{
    static const struct {
        const char *text;
        double px;
        SvgUnit unit;
    } good[] = {
        {"96", 96, SVG_UNIT_NONE},         {" 96px ", 96, SVG_UNIT_NONE},
        {"1in", 96, SVG_UNIT_PHYSICAL},    {"25.4mm", 96, SVG_UNIT_PHYSICAL},
        {"2.54cm", 96, SVG_UNIT_PHYSICAL}, {"101.6Q", 96, SVG_UNIT_PHYSICAL},
        {"72pt", 96, SVG_UNIT_PHYSICAL},   {"6pc", 96, SVG_UNIT_PHYSICAL},
        {"12%", 96, SVG_UNIT_RELATIVE},    {"6em", 96, SVG_UNIT_RELATIVE},
        {"1e0IN", 96, SVG_UNIT_PHYSICAL},  {"12ex", 96, SVG_UNIT_RELATIVE},
    };
    static const char *const bad[] = {"", "mm", "1 mm", "1m", "1inch", "1in 2in", "50%%", "1,5mm"};
    for (size_t i = 0; i < G_N_ELEMENTS(good); i++) {
        double px;
        SvgUnit unit;
        assert_true(svg_length(good[i].text, 800, &px, &unit));
        assert_true(fabs(px - good[i].px) < 1e-12);
        assert_int_equal(unit, good[i].unit);
    }
    for (size_t i = 0; i < G_N_ELEMENTS(bad); i++) {
        double px;
        assert_false(svg_length(bad[i], 800, &px, NULL));
    }
}

static void test_transforms(void **unused)
{
    static const struct {
        const char *text;
        double x, y; /* where 3, 5 comes to */
    } good[] = {
        {"", 3, 5},
        {"none", 3, 5},
        {"translate(10)", 13, 5},
        {"translate(10,-1)", 13, 4},
        {"scale(2)", 6, 10},
        {"scale(2 -3)", 6, -15},
        {"rotate(90)", -5, 3},
        {"rotate(-450)", 5, -3},
        {"rotate(180, 3 4)", 3, 3},
        {"skewX(45)", 8, 5},
        {"skewY(45)", 3, 8},
        {"matrix(1 2 3 4 5 6)", 1 * 3 + 3 * 5 + 5, 2 * 3 + 4 * 5 + 6},
        {" translate( 10 , 0 ) , scale(2)rotate(90) ", 0, 6},
        {"scale(2) translate(10 0)", 26, 10},
    };
    static const char *const bad[] = {
        "translate",
        "translate()",
        "translate(1 2 3)",
        "rotate(1 2)",
        "matrix(1 2 3)",
        "scale(1,,2)",
        "skewx(3)",
        "scale(2",
        "scale 2)",
        "translate(1;2)",
        "scale(1e400)",
        "move(1 2)",
        "scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)"
        "scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)"
        "scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)"
        "scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)"
        "scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)"
        "scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)scale(1e9)"};
    Transform t;
    long place;
    for (size_t i = 0; i < G_N_ELEMENTS(good); i++) {
        assert_true(transform_read(good[i].text, &t, &place));
        Point p = transform_point(&t, (Point){3, 5});
        assert_true(point_distance(p, (Point){good[i].x, good[i].y}) < 1e-12);
    }
    for (size_t i = 0; i < G_N_ELEMENTS(bad); i++)
        assert_false(transform_read(bad[i], &t, &place));
    assert_false(transform_read("scale(2) move(1)", &t, &place));
    assert_int_equal(place, 9);
}

static void test_view_boxes(void **unused)
{
    static const struct {
        const char *aspect;
        double x0, y0, x1, y1; /* where 10, 10 and 30, 20 come to in a viewport of 100 x 100 */
    } good[] = {
        {NULL, 0, 25, 100, 75},
        {"xMidYMid", 0, 25, 100, 75},
        {"xMinYMin meet", 0, 0, 100, 50},
        {"xMaxYMax", 0, 50, 100, 100},
        {"none", 0, 0, 100, 100},
        {"xMidYMid slice", -50, 0, 150, 100},
        {"xMinYMax slice", 0, 0, 200, 100},
        {"xMaxYMin slice", -100, 0, 100, 100},
    };
    Transform t;
    for (size_t i = 0; i < G_N_ELEMENTS(good); i++) {
        assert_true(transform_view_box("10,10 20 10", good[i].aspect, 100, 100, &t));
        Point a = transform_point(&t, (Point){10, 10}), b = transform_point(&t, (Point){30, 20});
        assert_true(point_distance(a, (Point){good[i].x0, good[i].y0}) < 1e-12);
        assert_true(point_distance(b, (Point){good[i].x1, good[i].y1}) < 1e-12);
    }
    assert_false(transform_view_box("0 0 0 10", NULL, 100, 100, &t));
    assert_false(transform_view_box("0 0 10 -1", NULL, 100, 100, &t));
    assert_false(transform_view_box("0 0 10", NULL, 100, 100, &t));
    assert_false(transform_view_box("0 0 10 10 10", NULL, 100, 100, &t));
    assert_false(transform_view_box("0 0 10 10", "left", 100, 100, &t));
}

/* ---- path data ---- */

/* The chain that path data draws, as text: "x,y" for a corner, ":s" for the sagitta of an arc's
 * side, "z" for closed; loops apart by '|'. */
static char *drawn(const char *data, Error *error)
{
    Loops *loops = loops_new();
    SvgPen pen;
    GString *text = g_string_new(NULL);
    svg_pen_init(&pen, loops, CURVE_TOLERANCE);
    bool fine = svg_path_draw(&pen, data, error);
    for (guint i = 0; i < loops->all->len; i++) {
        const Loop *loop = loops_at(loops, i);
        if (i)
            g_string_append_c(text, '|');
        for (size_t k = 0; k < loop->count; k++) {
            const Vertex *v = &loop->vertices[k];
            g_string_append_printf(text, k ? " %.6g,%.6g" : "%.6g,%.6g", v->x + 0.0, v->y + 0.0);
            if (v->sagitta != 0)
                g_string_append_printf(text, ":%.4g", v->sagitta);
        }
        if (loop->closed)
            g_string_append_c(text, 'z');
    }
    svg_pen_clear(&pen);
    loops_free(loops);
    if (fine)
        return g_string_free(text, FALSE);
    g_string_free(text, TRUE);
    return NULL;
}

static void test_path_data(void **unused)
{
    static const struct {
        const char *data, *drawn;
    } good[] = {
        {"", ""},
        {"none", ""},
        {"M1 1", ""},
        {"M1 1z", ""},
        {"M1,2L3,4", "1,2 3,4"},
        {"m1 2 3 4 5 6", "1,2 4,6 9,12"},
        {"M1 2 3 4 5 6", "1,2 3,4 5,6"},
        {"M0 0H5V5h-5z", "0,0 5,0 5,5 0,5z"},
        {"M0 0H5 6V5 7", "0,0 5,0 6,0 6,5 6,7"},
        {"M1 1h4v4zl1 3h2z", "1,1 5,1 5,5z|1,1 2,4 4,4z"},
        {"M0 0h4v4zm10 0h1v1z", "0,0 4,0 4,4z|10,0 11,0 11,1z"},
        {"M0,0.5.5-1-.5+2", "0,0.5 0.5,-1 -0.5,2"},
        {"M0 0L1e1-1e-1", "0,0 10,-0.1"},
        {"M0 0A5 5 0 0110 0", "0,0:5 10,0"},
        {"M0 0a5 5 0 1010 0", "0,0:-5 10,0"},
        {"M0 0a1 1 0 0 1 10 0", "0,0:5 10,0"},
        {"M0 0a0 5 0 0 1 10 0", "0,0 10,0"},
        {"M0 0a5 5 0 0 1 0 0h3", "0,0 3,0"},
        {"M0 0c1 0 2 0 3 0", "0,0 3,0"},
        {"M0 0C1 1 2 2 3 3s1 1 3 3", "0,0 3,3 6,6"},
        {"M0 0q2 0 4 0t4 0", "0,0 4,0 8,0"},
        {"M0 0T4 0", "0,0 4,0"},
        {"M0 0h4v4L0 0", "0,0 4,0 4,4 0,0"},
        {"\n M 0\t0 \r\n L 1 , 1 ", "0,0 1,1"},
        {"L1 1", NULL},
        {"5 5", NULL},
        {"M", NULL},
        {"M1", NULL},
        {"M0 0L1", NULL},
        {"M0 0X1 1", NULL},
        {"M0 0z5 5", NULL},
        {"M0 0A5 5 0 2 1 10 0", NULL},
        {"M0 0A5 5 0 0 10 0", ""}, /* flags may have nothing behind them: to 0, 0 */
        {"M0 0C1 1 2 2", NULL},
        {"M0 0L1e99 1", NULL},
        {"M0 0L99999 1", NULL},
        {"M0 0LNaN 1", NULL},
        {"M0 0L1 1;", NULL},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(good); i++) {
        Error error = {0};
        char *got = drawn(good[i].data, &error);
        if (!good[i].drawn) {
            if (got)
                fail_msg("%s was taken as %s", good[i].data, got);
            assert_true(error.message[0]);
        } else if (!got) {
            fail_msg("%s was refused: %s", good[i].data, error.message);
        } else {
            assert_string_equal(got, good[i].drawn);
        }
        g_free(got);
    }
}

static void test_smooth_commands_mirror_the_control_point(void **unused)
{
    /* The same curves with the control points written out. */
    static const char *const pairs[][2] = {
        {"M0 0C1 5 4 5 5 0S9-5 12 0", "M0 0C1 5 4 5 5 0C6-5 9-5 12 0"},
        {"M0 0Q2 5 4 0T8 0 12 0", "M0 0Q2 5 4 0Q6-5 8 0Q10 5 12 0"},
        {"M0 0L5 0S9-5 12 0", "M0 0L5 0C5 0 9-5 12 0"},
        {"M0 0Q2 5 4 0S9-5 12 0", "M0 0Q2 5 4 0C4 0 9-5 12 0"},
        {"m1 1c1 5 4 5 5 0s4-5 7 0", "M1 1C2 6 5 6 6 1C7-4 10-4 13 1"},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(pairs); i++) {
        Error error;
        char *smooth = drawn(pairs[i][0], &error), *plain = drawn(pairs[i][1], &error);
        assert_non_null(smooth);
        assert_string_equal(smooth, plain);
        g_free(smooth);
        g_free(plain);
    }
}

static void test_mistakes_in_path_data_are_placed(void **unused)
{
    Error error;
    assert_null(drawn("M0 0L5 5L6 x", &error));
    assert_int_equal(error.kind, ERROR_FORMAT);
    assert_non_null(strstr(error.message, "after 11 characters"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_numbers),
        cmocka_unit_test(test_lengths),
        cmocka_unit_test(test_transforms),
        cmocka_unit_test(test_view_boxes),
        cmocka_unit_test(test_path_data),
        cmocka_unit_test(test_smooth_commands_mirror_the_control_point),
        cmocka_unit_test(test_mistakes_in_path_data_are_placed),
    };
    return cmocka_run_group_tests_name("exchange-svg-grammar", tests, NULL, NULL);
}
