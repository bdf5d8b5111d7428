/* Figures and sentences as a person's language has them; and that nothing else is touched. */
#include "trade/speech.h"

#include "trade/typed.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static const char *translate(const char *english)
{
    return strcmp(english, "hole") == 0 ? "Bohrung" : english;
}

/* The decimal sign of German and Spanish is a comma (CLDR's numbers for de and es). */
static const Speech german = {translate, ','};

static void check_said(const char *plain, const char *said)
{
    char text[TYPED_TAKEN_AS];
    strcpy(text, plain);
    speech_figures(&german, text);
    assert_string_equal(text, said);
    speech_plain_figures(&german, text);
    assert_string_equal(text, plain);
    speech_figures(NULL, text);
    assert_string_equal(text, plain);
}

static void figures_have_the_decimal_sign(void **state)
{
    check_said("5.1", "5,1");
    check_said("0.2010 in (5.105 mm)", "0,2010 in (5,105 mm)");
    check_said("-12", "-12");
    check_said(".5", ",5");
    check_said("end.", "end.");
    check_said("", "");
}

static void words_are_translated(void **state)
{
    assert_string_equal(speech_say(&german, "hole"), "Bohrung");
    assert_string_equal(speech_say(NULL, "hole"), "hole");
    assert_string_equal(speech_say(&german, ""), "");
}

/* Reads what a person typed in German, in millimetres. */
static bool read(const char *typed, Length *length)
{
    char text[TYPED_TAKEN_AS], taken_as[TYPED_TAKEN_AS];
    Error error;
    strcpy(text, typed);
    speech_plain_figures(&german, text);
    return typed_length_read(text, UNIT_MM, length, taken_as, sizeof taken_as, &error);
}

static void check_read(const char *typed, Length expected)
{
    Length length;
    assert_true(read(typed, &length));
    assert_int_equal(length, expected);
}

static void a_comma_is_read(void **state)
{
    check_read("5,1", 5100000);
    check_read("5.1", 5100000); /* a point still is one */
    check_read("(1,5 + 2,25) * 2", 7500000);
    check_read("0,5in", 12700000);
    check_read(",5", 500000);
    check_read("1/2in", 12700000);
    Length length;
    assert_false(read("5,,1", &length));
    assert_false(read("5,1,2", &length));
    assert_false(read("5,", &length));
}

static void a_comma_is_refused_in_english(void **state)
{
    Length length;
    Error error;
    assert_false(typed_length_read("5,1", UNIT_MM, &length, NULL, 0, &error));
}

static int in_german(char *text, unsigned long size, const char *format, va_list values)
{
    return snprintf(text, size, "%d Bohrungen", va_arg(values, int));
}

static void errors_are_said_by_whom_was_asked(void **state)
{
    Error error;
    error_set_sayer(in_german);
    error_set(&error, ERROR_LIMIT, NULL, "%d holes", 3);
    assert_string_equal(error.message, "3 Bohrungen");
    error_set_sayer(NULL);
    error_set(&error, ERROR_LIMIT, NULL, "%d holes", 3);
    assert_string_equal(error.message, "3 holes");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(figures_have_the_decimal_sign),
        cmocka_unit_test(words_are_translated),
        cmocka_unit_test(a_comma_is_read),
        cmocka_unit_test(a_comma_is_refused_in_english),
        cmocka_unit_test(errors_are_said_by_whom_was_asked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
