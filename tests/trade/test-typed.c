/* Lengths, angles and numbers as people type them. Expected lengths are worked out by hand. */
#include "trade/typed.h"

#include <locale.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static void length_is(const char *text, Unit unit, Length expected)
{
    Error error = {0};
    Length length = -1;
    char taken_as[TYPED_TAKEN_AS];
    if (!typed_length_read(text, unit, &length, taken_as, sizeof taken_as, &error))
        fail_msg("%s: %s: %s", text, error.place, error.message);
    if (length != expected)
        fail_msg("%s: %lld, expected %lld", text, (long long)length, (long long)expected);
}

static void taken_as_is(const char *text, Unit unit, const char *expected)
{
    Length length;
    char taken_as[TYPED_TAKEN_AS];
    assert_true(typed_length_read(text, unit, &length, taken_as, sizeof taken_as, NULL));
    assert_string_equal(taken_as, expected);
}

static void refused_at(const char *text, int column, const char *word)
{
    Error error = {0};
    Length length;
    char place[32];
    snprintf(place, sizeof place, "column %d", column);
    if (typed_length_read(text, UNIT_INCH, &length, NULL, 0, &error))
        fail_msg("%s was read", text);
    assert_string_equal(error.place, place);
    if (!strstr(error.message, word))
        fail_msg("%s: \"%s\" does not say \"%s\"", text, error.message, word);
}

static void plain_numbers_have_the_documents_unit(void **state)
{
    length_is("0.201", UNIT_INCH, 5105400);
    length_is("0.201", UNIT_MM, 201000);
    length_is("13/64", UNIT_INCH, 5159375);
    length_is("13/64", UNIT_MM, 203125);
    length_is(".5", UNIT_INCH, 12700000);
    length_is("5.", UNIT_MM, 5000000);
    length_is("0", UNIT_MM, 0);
    length_is("-0.25", UNIT_INCH, -6350000);
    length_is("1/3", UNIT_MM, 333333);
    length_is("2/3", UNIT_MM, 666667);
    length_is("-2/3", UNIT_MM, -666667);
    length_is("0.0000005", UNIT_MM, 1); /* half a nanometre: away from 0 */
}

static void units_stand_beside_numbers(void **state)
{
    length_is("5.1mm", UNIT_INCH, 5100000);
    length_is("5.1 MM", UNIT_INCH, 5100000);
    length_is("0.5in", UNIT_MM, 12700000);
    length_is("1/4\"", UNIT_MM, 6350000);
    length_is("1/4 inch", UNIT_MM, 6350000);
    length_is("2 inches", UNIT_MM, 50800000);
    length_is("1 1/8", UNIT_INCH, 28575000);
    length_is("1 1/8in", UNIT_MM, 28575000);
    length_is("-1 1/8in", UNIT_MM, -28575000);
    length_is("201 thou", UNIT_MM, 5105400);
    length_is("15um", UNIT_INCH, 15000);
    length_is("15 \xc2\xb5m", UNIT_INCH, 15000);
    length_is("2cm", UNIT_INCH, 20000000);
    length_is("(1+1/2)in", UNIT_MM, 38100000);
}

static void named_sizes_are_drills(void **state)
{
    length_is("#7", UNIT_MM, 5105400);
    length_is("F", UNIT_MM, 6527800);
    length_is("f", UNIT_INCH, 6527800);
    length_is("No. 7", UNIT_INCH, 5105400);
    length_is("#7 + 0.1mm", UNIT_INCH, 5205400);
    length_is("2*F", UNIT_INCH, 13055600);
    taken_as_is("#7", UNIT_INCH, "drill No. 7, 0.2010 in");
    taken_as_is("#8", UNIT_INCH, "drill No. 8, 0.1990 in");
    taken_as_is("F - #7", UNIT_MM, "drill F, 0.2570 in; drill No. 7, 0.2010 in");
    taken_as_is("0.201", UNIT_INCH, "");
    taken_as_is("13/64", UNIT_INCH, "");
    taken_as_is("13/64", UNIT_MM, "millimetres, 0.203 mm; for inches add in");
    taken_as_is("1-1/8", UNIT_INCH,
                "a difference, 0.8750 in; for a whole and a fraction type a blank");
}

static void arithmetic_is_exact(void **state)
{
    length_is("1/3+1/3+1/3", UNIT_INCH, 25400000);
    length_is("10/4mm", UNIT_INCH, 2500000);
    length_is("10mm/4", UNIT_INCH, 2500000);
    length_is("1/4in*3", UNIT_MM, 19050000);
    length_is("0.5in + 2mm", UNIT_MM, 14700000);
    length_is("0.5in + 2", UNIT_MM, 14700000);
    length_is("2*(3+4*(1-0.5))", UNIT_MM, 10000000);
    length_is("1/2/2", UNIT_MM, 250000);
    length_is("1/2.5", UNIT_MM, 400000);
    length_is("--5", UNIT_MM, 5000000);
    length_is("3mm/2mm*4", UNIT_MM, 6000000);
    length_is("10in/3mm*1um", UNIT_MM, 84667);
    length_is("3 \xc3\x97 2", UNIT_MM, 6000000);
    length_is("3 \xe2\x88\x92 2", UNIT_MM, 1000000);
    length_is("10000mm", UNIT_MM, LENGTH_GREATEST);
}

static void errors_name_the_column(void **state)
{
    refused_at("", 1, "nothing");
    refused_at("   ", 4, "nothing");
    refused_at("0,201", 2, "point");
    refused_at("1/0", 3, "divided by 0");
    refused_at("1/(2-2)", 2, "divided by 0");
    refused_at("3 5", 2, "sign");
    refused_at("(1+2", 5, "closing bracket");
    refused_at("1)", 2, "opening");
    refused_at("#", 1, "#7");
    refused_at("#98", 1, "no such drill");
    refused_at("5 foo", 3, "unit");
    refused_at("foo", 1, "not known");
    refused_at("1+", 3, "missing at the end");
    refused_at("1+*2", 3, "a number should");
    refused_at("2in*3in", 4, "multiplied");
    refused_at("2/(3in)", 2, "divided by a measured");
    refused_at("4in/2in", 1, "ratio");
    refused_at("1e3", 2, "unit");
    refused_at("10001mm", 1, "10 m");
    refused_at("nan", 1, "not known");
    refused_at("0.1234567890123456789012", 1, "decimals");
    refused_at("\xc3\x97 2", 1, "number");
    refused_at("1 \xc3\x97 \xc3\x97", 5, "number"); /* columns count characters, not bytes */
    refused_at("1..2", 3, "sign");
    refused_at(".", 1, "figure");
}

static void limits_hold(void **state)
{
    char text[TYPED_BYTES_MOST + 2];
    Length length;
    Error error = {0};
    memset(text, '(', sizeof text);
    text[TYPED_BYTES_MOST] = '\0';
    assert_false(typed_length_read(text, UNIT_MM, &length, NULL, 0, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    memset(text, '-', sizeof text);
    text[TYPED_BYTES_MOST - 1] = '5';
    text[TYPED_BYTES_MOST] = '\0';
    assert_true(typed_length_read(text, UNIT_MM, &length, NULL, 0, &error));
    assert_int_equal(length, -5000000);
    memset(text, '1', sizeof text);
    text[TYPED_BYTES_MOST + 1] = '\0';
    assert_false(typed_length_read(text, UNIT_MM, &length, NULL, 0, &error));
    assert_non_null(strstr(error.message, "longer"));
}

/* Whatever is typed, the reader answers; the sanitizers watch. A fixed seed keeps it repeatable. */
static void any_bytes_are_answered(void **state)
{
    static const char *const pieces[] = {"1",        "7",
                                         "64",       "/",
                                         "*",        "+",
                                         "-",        "(",
                                         ")",        "in",
                                         "mm",       "#",
                                         "F",        ".",
                                         " ",        "\"",
                                         "99",       "0",
                                         ",",        "e",
                                         "No",       "'",
                                         "\xc2\xb0", "\xe2\x80",
                                         "thou",     "9223372036854775807"};
    unsigned seed = 7;
    for (int round = 0; round < 20000; round++) {
        char text[TYPED_BYTES_MOST + 1] = "";
        size_t count = (size_t)rand_r(&seed) % 24;
        for (size_t i = 0; i < count; i++) {
            if (round % 4)
                strcat(text, pieces[(size_t)rand_r(&seed) % (sizeof pieces / sizeof *pieces)]);
            else
                text[i] = (char)(1 + rand_r(&seed) % 255), text[i + 1] = '\0';
        }
        Length length = 0;
        Angle angle = 0;
        double number = 0;
        char taken_as[20];
        Error error = {0};
        if (typed_length_read(text, round % 2, &length, taken_as, sizeof taken_as, &error))
            assert_true(length <= LENGTH_GREATEST && length >= -LENGTH_GREATEST);
        else
            assert_true(error.place[0] && error.message[0]);
        typed_angle_read(text, &angle, NULL);
        typed_number_read(text, -1e9, 1e9, &number, NULL);
    }
}

static void angle_is(const char *text, Angle expected)
{
    Angle angle;
    Error error = {0};
    if (!typed_angle_read(text, &angle, &error))
        fail_msg("%s: %s: %s", text, error.place, error.message);
    assert_int_equal(angle, expected);
}

static void angles_are_read(void **state)
{
    angle_is("6.5", 6500000000);
    angle_is("6 deg", 6000000000);
    angle_is("6\xc2\xb0 30'", 6500000000);
    angle_is("6\xc2\xb0 30' 15\"", 6504166667);
    angle_is("6deg 30min", 6500000000);
    angle_is("-6\xc2\xb0 30'", -6500000000);
    angle_is("30'", 500000000);
    angle_is("360/7", 51428571429);
    angle_is("2*7.5", 15000000000);
    angle_is("360", ANGLE_TURN);
    Angle angle;
    assert_false(typed_angle_read("361", &angle, NULL));
    assert_false(typed_angle_read("6\xc2\xb0 30", &angle, NULL));
    assert_false(typed_angle_read("30' 6\xc2\xb0", &angle, NULL));
    assert_false(typed_angle_read("6 in", &angle, NULL));
    assert_false(typed_angle_read("#7", &angle, NULL));
}

static void numbers_and_counts_are_read(void **state)
{
    double number = 0;
    Error error = {0};
    assert_true(typed_number_read("0.15", 0, 1, &number, &error));
    assert_true(number == 0.15);
    assert_true(typed_number_read("3/4", 0, 1, &number, &error));
    assert_true(number == 0.75);
    assert_false(typed_number_read("1.5", 0, 1, &number, &error));
    assert_non_null(strstr(error.message, "1.5"));
    assert_false(typed_number_read("1mm", 0, 1, &number, &error));
    int count = 0;
    assert_true(typed_count_read(" 12 ", 1, 50, &count, &error));
    assert_int_equal(count, 12);
    assert_false(typed_count_read("0", 1, 50, &count, &error));
    assert_false(typed_count_read("51", 1, 50, &count, &error));
    assert_false(typed_count_read("1.5", 1, 50, &count, &error));
    assert_false(typed_count_read("99999999999", 1, 50, &count, &error));
    assert_false(typed_count_read("", 1, 50, &count, &error));
}

/* A comma is the decimal sign in many languages; what is typed must not change with it. */
static void the_language_changes_nothing(void **state)
{
    static const char *const names[] = {"de_DE.UTF-8", "fr_FR.UTF-8", "C.UTF-8"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (!setlocale(LC_ALL, names[i]))
            continue;
        length_is("0.201", UNIT_INCH, 5105400);
        refused_at("0,201", 2, "point");
    }
    setlocale(LC_ALL, "C");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plain_numbers_have_the_documents_unit),
        cmocka_unit_test(units_stand_beside_numbers),
        cmocka_unit_test(named_sizes_are_drills),
        cmocka_unit_test(arithmetic_is_exact),
        cmocka_unit_test(errors_name_the_column),
        cmocka_unit_test(limits_hold),
        cmocka_unit_test(any_bytes_are_answered),
        cmocka_unit_test(angles_are_read),
        cmocka_unit_test(numbers_and_counts_are_read),
        cmocka_unit_test(the_language_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
