/* Figures and sentences as a person's language has them; and that nothing else is touched. */
#include "trade/speech.h"

#include "trade/size-words.h"
#include "trade/typed.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

/* Bohrer as in DIN 338, Zylinderschraube as in DIN EN ISO 4762; from memory. */
static const char *translate(const char *english)
{
    static const char *const words[][2] = {
        {"hole", "Bohrung"},
        {"drill No.", "Bohrer Nr."},
        {"drill, the tool", "Bohrer"},
        {"socket head", "Zylinderschraube"},
        {"annealed", "weichgeglüht"},
        {"millimetres, %s; for inches add in", "Millimeter, %s; für Zoll in anhängen"},
    };
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strcmp(english, words[i][0]) == 0)
            return words[i][1];
    return english;
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

static void check_size(const char *english, const char *said)
{
    char text[TYPED_TAKEN_AS];
    size_said(english, &german, text, sizeof text);
    assert_string_equal(text, said);
    size_plain(said, &german, text, sizeof text);
    assert_string_equal(text, english);
    size_said(english, NULL, text, sizeof text);
    assert_string_equal(text, english);
}

static void sizes_are_said_and_read(void **state)
{
    check_size("drill No. 7, 0.2010 in", "Bohrer Nr. 7, 0,2010 in");
    check_size("drill 5.1 mm", "Bohrer 5,1 mm");
    check_size("socket head M5", "Zylinderschraube M5");
    check_size("M5", "M5");
    check_size("", "");
    char text[TYPED_TAKEN_AS];
    size_plain("zylinderschraube M5", &german, text, sizeof text);
    assert_string_equal(text, "socket head M5");
    size_plain("socket head M5", &german, text, sizeof text);
    assert_string_equal(text, "socket head M5");
    /* No part of a word is taken for one. */
    size_said("drills", &german, text, sizeof text);
    assert_string_equal(text, "drills");
    size_said("drill No. 7, 0.2010 in", &german, text, 8);
    assert_string_equal(text, "Bohrer ");
}

static void a_materials_number_keeps_its_points(void **state)
{
    char text[TYPED_TAKEN_AS];
    material_said("1.4116 annealed", &german, text, sizeof text);
    assert_string_equal(text, "1.4116 weichgeglüht");
    material_said("1.4116 annealed", NULL, text, sizeof text);
    assert_string_equal(text, "1.4116 annealed");
}

static void what_was_typed_is_taken_as_said(void **state)
{
    char taken_as[TYPED_TAKEN_AS];
    Length length;
    Error error;
    assert_true(typed_length_read_said("#7", UNIT_INCH, &german, &length, taken_as, sizeof taken_as,
                                       &error));
    assert_string_equal(taken_as, "Bohrer Nr. 7, 0,2010 in");
    assert_true(typed_length_read_said("1/4", UNIT_MM, &german, &length, taken_as, sizeof taken_as,
                                       &error));
    assert_string_equal(taken_as, "Millimeter, 0,25 mm; für Zoll in anhängen");
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
        cmocka_unit_test(sizes_are_said_and_read),
        cmocka_unit_test(a_materials_number_keeps_its_points),
        cmocka_unit_test(what_was_typed_is_taken_as_said),
        cmocka_unit_test(a_comma_is_read),
        cmocka_unit_test(a_comma_is_refused_in_english),
        cmocka_unit_test(errors_are_said_by_whom_was_asked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
