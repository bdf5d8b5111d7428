#include "cases.h"

#include "drawing/figure.h"

static const FigureStyle metric = {PLATE_MM, SHEET_STANDARD_ISO, false};
static const FigureStyle inch = {PLATE_INCH, SHEET_STANDARD_ASME, false};
static const FigureStyle inch_by_iso = {PLATE_INCH, SHEET_STANDARD_ISO, false};

static void check(FigureStyle style, Length length, const char *expected)
{
    char text[FIGURE_TEXT];
    assert_string_equal(figure_length(style, length, text), expected);
}

/* ISO 129-1 (from memory): no needless zeros. */
static void test_millimetres(void **state)
{
    check(metric, 0, "0");
    check(metric, 12700000, "12.7");
    check(metric, 25 * LENGTH_MM, "25");
    check(metric, 500000, "0.5");
    check(metric, -500000, "-0.5");
    check(metric, 12345, "0.012");
    check(metric, 12500, "0.013");
    check(metric, -12500, "-0.013");
    check(metric, 499, "0");
    check(metric, -499, "0");
    check(metric, LENGTH_GREATEST, "10000");
}

/* ASME Y14.5 (from memory): no zero before an inch's point, and zeros kept behind it. */
static void test_inches(void **state)
{
    check(inch, LENGTH_INCH / 2, ".500");
    check(inch, 8 * LENGTH_INCH, "8.000");
    check(inch, LENGTH_INCH / 64, ".0156");
    check(inch, 5105400, ".201"); /* drill No. 7 */
    check(inch, -LENGTH_INCH / 4, "-.250");
    check(inch_by_iso, LENGTH_INCH / 4, "0.250");
}

/* The inch is 25.4 mm (the international yard, 1959); the rest is that and rounding by hand. */
static void test_both_units(void **state)
{
    FigureStyle style = inch;
    style.both = true;
    check(style, 0, "0");
    check(style, LENGTH_INCH, "1.000 [25.4]");
    check(style, LENGTH_INCH * 7 / 10, ".700 [17.78]");
    check(style, -LENGTH_INCH / 64, "-.0156 [-0.397]");
    style = metric;
    style.both = true;
    check(style, 18 * LENGTH_MM, "18 [0.7087]");
    check(style, 12700000, "12.7 [0.500]");
    check(style, 499, "0");
    check(style, LENGTH_GREATEST, "10000 [393.7008]");
    char text[FIGURE_LIMITS];
    assert_string_equal(figure_limits(style, 12 * LENGTH_UM, 0, text), "+0.012/0 [+0.0005/0]");
    style.standard = SHEET_STANDARD_ASME;
    assert_string_equal(figure_limits(style, LENGTH_MM / 2, -LENGTH_MM / 2, text),
                        "\u00B10.5 [\u00B1.0197]");
}

static void check_torque(FigureStyle style, double newton_metres, const char *expected)
{
    char text[FIGURE_TEXT];
    assert_string_equal(figure_torque(style, newton_metres, text), expected);
}

/* 1 Nm is 8.8507 in-lbf: units -t '1 N m' 'in lbf'. */
static void test_torques(void **state)
{
    check_torque(metric, 1.5, "1.5 Nm");
    check_torque(metric, 0.44, "0.44 Nm");
    check_torque(metric, 24.4, "24 Nm");
    check_torque(inch, 1, "8.9 in-lbf");
    check_torque(inch, 1.5, "13 in-lbf");    /* 13.28 */
    check_torque(inch, 14, "120 in-lbf");    /* 123.9 */
    check_torque(inch, 0.05, "0.44 in-lbf"); /* 0.4425 */
    FigureStyle style = inch;
    style.both = true;
    check_torque(style, 1.5, "13 in-lbf [1.5 Nm]");
}

static void test_angles(void **state)
{
    char text[FIGURE_TEXT];
    assert_string_equal(figure_angle(90 * ANGLE_DEGREE, text), "90\u00B0");
    assert_string_equal(figure_angle(-ANGLE_DEGREE / 2, text), "-0.5\u00B0");
    assert_string_equal(figure_angle(0, text), "0\u00B0");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_millimetres), cmocka_unit_test(test_inches),
        cmocka_unit_test(test_both_units),  cmocka_unit_test(test_torques),
        cmocka_unit_test(test_angles),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
