#include "cases.h"

#include "drawing/figure.h"

static const FigureStyle metric = {PLATE_MM, SHEET_STANDARD_ISO};
static const FigureStyle inch = {PLATE_INCH, SHEET_STANDARD_ASME};
static const FigureStyle inch_by_iso = {PLATE_INCH, SHEET_STANDARD_ISO};

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
        cmocka_unit_test(test_millimetres),
        cmocka_unit_test(test_inches),
        cmocka_unit_test(test_angles),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
