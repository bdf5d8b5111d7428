/* Errors: set, placed, named after a file, and printed in one line. */
#include "geometry/error.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void test_an_error_in_one_line(void **state)
{
    Error error;
    char line[900];
    assert_false(error_set(&error, ERROR_FORMAT, "depth", "%d is less than nothing", -3));
    error_within(&error, "steps[1]");
    error_within(&error, "holes[4]");
    error_set_file(&error, "blade.plate");
    error_set_file(&error, "other.plate");
    error_line(&error, line, sizeof line);
    assert_int_equal(error.kind, ERROR_FORMAT);
    assert_string_equal(line, "blade.plate: holes[4].steps[1].depth: -3 is less than nothing");
}

static void test_places_are_joined(void **state)
{
    Error error;
    error_set(&error, ERROR_FORMAT, "[3]", "no number");
    error_within(&error, "points");
    assert_string_equal(error.place, "points[3]");
    error_set(&error, ERROR_FORMAT, NULL, "no number");
    error_within(&error, "points");
    assert_string_equal(error.place, "points");
    error_within(&error, "");
    assert_string_equal(error.place, "points");
}

static void test_what_is_empty_is_left_out(void **state)
{
    Error error;
    char line[64];
    error_set(&error, ERROR_TYPED, NULL, "no length");
    error_line(&error, line, sizeof line);
    assert_string_equal(line, "no length");
    error_line(&error, line, 4);
    assert_string_equal(line, "no ");
    error_line(&error, line, 0);
}

static void test_no_error_wanted(void **state)
{
    assert_false(error_set(NULL, ERROR_FILE, "here", "nobody reads this"));
    error_set_file(NULL, "x");
    error_within(NULL, "x");
}

static void test_long_texts_are_cut_between_characters(void **state)
{
    Error error;
    char text[1000];
    for (size_t lead = 0; lead < 3; lead++) {
        memset(text, 'x', lead);
        for (size_t i = lead; i + 2 < sizeof text; i += 2) {
            memcpy(text + i, "\xC3\x98", 3); /* the diameter-like letter, two bytes */
        }
        error_set(&error, ERROR_FORMAT, text, "%s", text);
        error_set_file(&error, text);
        assert_int_equal((unsigned char)error.message[strlen(error.message) - 1], 0x98);
        assert_int_equal((unsigned char)error.place[strlen(error.place) - 1], 0x98);
        assert_int_equal((unsigned char)error.file[strlen(error.file) - 1], 0x98);
        error_within(&error, text);
        assert_true(strlen(error.place) < sizeof error.place);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_an_error_in_one_line),
        cmocka_unit_test(test_places_are_joined),
        cmocka_unit_test(test_what_is_empty_is_left_out),
        cmocka_unit_test(test_no_error_wanted),
        cmocka_unit_test(test_long_texts_are_cut_between_characters),
    };
    return cmocka_run_group_tests_name("error", tests, NULL, NULL);
}
