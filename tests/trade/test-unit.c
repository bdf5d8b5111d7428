/* Lengths written for people. */
#include "trade/unit.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <string.h>

#include <cmocka.h>

static void check(Length length, Unit unit, const char *expected)
{
    char text[LENGTH_PEOPLE_TEXT];
    assert_int_equal(length_text(length, unit, text), strlen(expected));
    assert_string_equal(text, expected);
}

static void inches_keep_four_decimals(void **state)
{
    check(5105400, UNIT_INCH, "0.2010");
    check(LENGTH_INCH, UNIT_INCH, "1.0000");
    check(0, UNIT_INCH, "0.0000");
    check(5159375, UNIT_INCH, "0.2031"); /* 13/64 is 0.203125 */
    check(-6350000, UNIT_INCH, "-0.2500");
    check(-1, UNIT_INCH, "0.0000");
    check(1270, UNIT_INCH, "0.0001");
    check(1269, UNIT_INCH, "0.0000");
}

static void millimetres_lose_closing_zeros(void **state)
{
    check(5100000, UNIT_MM, "5.1");
    check(12000000, UNIT_MM, "12");
    check(5105400, UNIT_MM, "5.105");
    check(0, UNIT_MM, "0");
    check(-499, UNIT_MM, "0");
    check(-500, UNIT_MM, "-0.001");
    check(100000000, UNIT_MM, "100");
}

static void extremes_fit(void **state)
{
    char text[LENGTH_PEOPLE_TEXT];
    assert_true(length_text_both(INT64_MIN, UNIT_INCH, text) < LENGTH_PEOPLE_TEXT);
    assert_true(length_text_both(INT64_MAX, UNIT_MM, text) < LENGTH_PEOPLE_TEXT);
}

static void both_units_stand_together(void **state)
{
    char text[LENGTH_PEOPLE_TEXT];
    length_text_both(5105400, UNIT_INCH, text);
    assert_string_equal(text, "0.2010 in (5.105 mm)");
    length_text_both(5100000, UNIT_MM, text);
    assert_string_equal(text, "5.1 mm (0.2008 in)");
    length_text_with_unit(5100000, UNIT_MM, text);
    assert_string_equal(text, "5.1 mm");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(inches_keep_four_decimals),
        cmocka_unit_test(millimetres_lose_closing_zeros),
        cmocka_unit_test(extremes_fit),
        cmocka_unit_test(both_units_stand_together),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
