/* The list of drills and how it is asked. */
#include "trade/drill.h"

#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

#define TEN_THOUSANDTH ((Length)2540)

static void the_list_is_sorted_and_whole(void **state)
{
    size_t of_series[DRILL_SERIES_COUNT] = {0};
    for (size_t i = 0; i < drill_count(); i++) {
        of_series[drill_at(i)->series]++;
        assert_true(drill_at(i)->source[0] != '\0');
        if (i)
            assert_true(drill_at(i - 1)->diameter <= drill_at(i)->diameter);
    }
    assert_int_equal(of_series[DRILL_NUMBER], 97);
    assert_int_equal(of_series[DRILL_LETTER], 26);
    assert_int_equal(of_series[DRILL_FRACTION], 64);
    assert_int_equal(of_series[DRILL_METRIC], 130);
}

static void check_name(const char *name, Length diameter, const char *expected)
{
    Error error = {0};
    const Drill *drill = drill_find(name, &error);
    assert_non_null(drill);
    assert_int_equal(drill->diameter, diameter);
    char text[80];
    drill_text(drill, text, sizeof text);
    assert_string_equal(text, expected);
}

static void names_are_found_as_people_write_them(void **state)
{
    check_name("#7", 2010 * TEN_THOUSANDTH, "drill No. 7, 0.2010 in");
    check_name("No. 7", 2010 * TEN_THOUSANDTH, "drill No. 7, 0.2010 in");
    check_name("no 43", 890 * TEN_THOUSANDTH, "drill No. 43, 0.0890 in");
    check_name("f", 2570 * TEN_THOUSANDTH, "drill F, 0.2570 in");
    check_name("13/64", 5159375, "drill 13/64, 0.2031 in");
    check_name("26/128", 5159375, "drill 13/64, 0.2031 in");
    check_name("1/4\"", 6350000, "drill 1/4, 0.2500 in");
    check_name("5.1mm", 5100000, "drill 5.1 mm");
    check_name("5.1 mm", 5100000, "drill 5.1 mm");
    check_name("6mm", 6000000, "drill 6 mm");
}

static void a_size_that_is_not_there_names_its_neighbours(void **state)
{
    Error error = {0};
    assert_null(drill_find("5.15mm", &error));
    assert_int_equal(error.kind, ERROR_MISSING);
    assert_non_null(strstr(error.message, "drill No. 7, 0.2010 in"));
    assert_non_null(strstr(error.message, "13/64"));
    assert_null(drill_find("#98", &error));
    assert_null(drill_find("", &error));
    assert_null(drill_find("1/0", &error));
    assert_null(drill_find("13/63", NULL));
}

static void nearest_looks_both_ways(void **state)
{
    assert_string_equal(drill_at_or_above(2010 * TEN_THOUSANDTH, DRILL_SET_ALL)->name, "#7");
    assert_string_equal(drill_at_or_below(2010 * TEN_THOUSANDTH, DRILL_SET_ALL)->name, "#7");
    assert_string_equal(drill_at_or_above(2010 * TEN_THOUSANDTH + 1, DRILL_SET_ALL)->name, "13/64");
    assert_string_equal(drill_at_or_above(5000001, DRILL_SET(DRILL_METRIC))->name, "5.1mm");
    assert_string_equal(drill_nearest(5060000, DRILL_SET(DRILL_METRIC))->name, "5.1mm");
    assert_string_equal(drill_nearest(5040000, DRILL_SET(DRILL_METRIC))->name, "5.0mm");
    assert_string_equal(drill_nearest(5050000, DRILL_SET(DRILL_METRIC))->name, "5.0mm");
    assert_null(drill_at_or_below(1, DRILL_SET_ALL));
    assert_null(drill_at_or_above(2 * LENGTH_INCH, DRILL_SET_ALL));
    assert_string_equal(drill_nearest(2 * LENGTH_INCH, DRILL_SET_ALL)->name, "1in");
    assert_null(drill_nearest(LENGTH_INCH, 0));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_list_is_sorted_and_whole),
        cmocka_unit_test(names_are_found_as_people_write_them),
        cmocka_unit_test(a_size_that_is_not_there_names_its_neighbours),
        cmocka_unit_test(nearest_looks_both_ways),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
