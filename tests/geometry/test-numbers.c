/* Lengths, angles and their decimals. */
#include "geometry/angle.h"
#include "geometry/length.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* The inch is exactly 25.4 mm: international yard and pound agreement, 1959. */
static void test_inch_fractions_are_whole_nanometres(void **state)
{
    assert_int_equal(LENGTH_INCH, 25400000);
    assert_int_equal(LENGTH_INCH % 10000, 0);
    assert_int_equal(LENGTH_INCH % 64, 0);
    assert_int_equal(LENGTH_INCH / 64, 396875);
    assert_true(length_to_mm(LENGTH_INCH) == 25.4);
    assert_true(length_to_mm(LENGTH_INCH / 64) == 0.396875);
}

static void test_length_from_mm(void **state)
{
    assert_int_equal(length_from_mm(25.4), LENGTH_INCH);
    assert_int_equal(length_from_mm(-0.0000004), 0);
    assert_int_equal(length_from_mm(-0.0000006), -1);
    assert_int_equal(length_from_mm(NAN), 0);
    assert_int_equal(length_from_mm(INFINITY), LENGTH_GREATEST);
    assert_int_equal(length_from_mm(-1e300), -LENGTH_GREATEST);
}

typedef struct ReadCase {
    const char *text;
    bool good;
    int64_t value;
} ReadCase;

static void test_millionths_read(void **state)
{
    static const ReadCase cases[] = {
        {"12", true, 12000000},
        {"-0.5", true, -500000},
        {"0", true, 0},
        {"-0", true, 0},
        {"0.000001", true, 1},
        {"0.0000001", false, 0},
        {"0.0000010", true, 1},
        {"1e2", true, 100000000},
        {"1E+2", true, 100000000},
        {"25e-6", true, 25},
        {"25e-7", false, 0},
        {"250e-7", true, 25},
        {"0e999999999999999999999", true, 0},
        {"1e999999999999999999999", false, 0},
        {"1e-999999999999999999999", false, 0},
        {"10000", true, LENGTH_GREATEST},
        {"-10000", true, -LENGTH_GREATEST},
        {"10000.000001", false, 0},
        {"9999.999999", true, LENGTH_GREATEST - 1},
        {"99999999999999999999999", false, 0},
        {"", false, 0},
        {"-", false, 0},
        {"+1", false, 0},
        {"01", false, 0},
        {"1.", false, 0},
        {".5", false, 0},
        {"1e", false, 0},
        {"1e+", false, 0},
        {" 1", false, 0},
        {"1 ", false, 0},
        {"0x10", false, 0},
        {"NaN", false, 0},
        {"Infinity", false, 0},
        {"1,5", false, 0},
        {"1.5.5", false, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        int64_t value = -77;
        bool good = millionths_read(cases[i].text, LENGTH_GREATEST, &value);
        if (good != cases[i].good || value != (good ? cases[i].value : -77)) {
            fail_msg("%s gives %d, %lld", cases[i].text, good, (long long)value);
        }
    }
}

/* The two sides of the widest range, where one more digit would leave 64 bits. */
static void test_millionths_read_at_the_widest(void **state)
{
    int64_t value = 0;
    assert_true(millionths_read("9223372036854.775807", INT64_MAX, &value));
    assert_true(value == INT64_MAX);
    assert_false(millionths_read("9223372036854.775808", INT64_MAX, &value));
    assert_false(millionths_read("99999999999999.999999", INT64_MAX, &value));
}

/* A number with more zeros than an int can count is still read, not overrun. */
static void test_millionths_read_of_a_long_text(void **state)
{
    const size_t zeros = 100000;
    char *text = malloc(zeros + 32);
    assert_non_null(text);
    strcpy(text, "0.");
    memset(text + 2, '0', zeros);
    strcpy(text + 2 + zeros, "15e100002");
    int64_t value = 0;
    assert_true(millionths_read(text, LENGTH_GREATEST, &value));
    assert_int_equal(value, 15000000);
    free(text);
}

static void test_millionths_write(void **state)
{
    static const ReadCase cases[] = {
        {"0", true, 0},
        {"12", true, 12000000},
        {"-0.5", true, -500000},
        {"0.000001", true, 1},
        {"-1.25", true, -1250000},
        {"-9223372036854.775808", true, INT64_MIN},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[LENGTH_TEXT];
        size_t length = millionths_write(cases[i].value, text);
        assert_string_equal(text, cases[i].text);
        assert_int_equal(length, strlen(text));
    }
}

static void test_written_millionths_read_back(void **state)
{
    uint64_t random = 88172645463325252u;
    for (int i = 0; i < 20000; i++) {
        random ^= random << 13;
        random ^= random >> 7;
        random ^= random << 17;
        int64_t value = (int64_t)(random % (uint64_t)(2 * LENGTH_GREATEST + 1)) - LENGTH_GREATEST;
        value /= i % 3 == 0 ? 1 : i % 3 == 1 ? 1000 : 1000000;
        char text[LENGTH_TEXT];
        int64_t back = 0;
        millionths_write(value, text);
        assert_true(millionths_read(text, LENGTH_GREATEST, &back));
        assert_int_equal(back, value);
        assert_int_equal(length_from_mm(strtod(text, NULL)), value);
    }
}

static void test_angle_read_and_write(void **state)
{
    Angle angle = 0;
    char text[LENGTH_TEXT];
    assert_true(angle_read("360", &angle));
    assert_int_equal(angle, ANGLE_TURN);
    assert_true(angle_read("-12.000000001", &angle));
    assert_int_equal(angle, -12000000001);
    assert_int_equal(angle_write(angle, text), 13);
    assert_string_equal(text, "-12.000000001");
    assert_false(angle_read("360.000000001", &angle));
    assert_false(angle_read("0.0000000001", &angle));
    assert_false(angle_read("six", &angle));
}

static void test_angle_normalized(void **state)
{
    assert_int_equal(angle_normalized(ANGLE_TURN), 0);
    assert_int_equal(angle_normalized(-1), ANGLE_TURN - 1);
    assert_int_equal(angle_normalized(-3 * ANGLE_TURN), 0);
    assert_int_equal(angle_normalized(725 * ANGLE_DEGREE), 5 * ANGLE_DEGREE);
    assert_true(angle_normalized(INT64_MIN) >= 0);
}

static void test_angle_from_degrees(void **state)
{
    assert_int_equal(angle_from_degrees(5.5), 5500000000);
    assert_int_equal(angle_from_degrees(-1e-10), 0);
    assert_int_equal(angle_from_degrees(NAN), 0);
    assert_int_equal(angle_from_degrees(INFINITY), 0);
    assert_true(angle_from_degrees(1e300) > 0);
    assert_true(angle_to_degrees(angle_from_degrees(12.345678901)) == 12.345678901);
}

static void test_quarter_turns_are_exact(void **state)
{
    static const double cosines[] = {1, 0, -1, 0}, sines[] = {0, 1, 0, -1};
    for (int quarters = -8; quarters <= 8; quarters++) {
        double c, s;
        angle_cos_sin(quarters * 90 * ANGLE_DEGREE, &c, &s);
        int i = ((quarters % 4) + 4) % 4;
        assert_true(c == cosines[i] && !signbit(c) == (cosines[i] >= 0));
        assert_true(s == sines[i] && !signbit(s) == (sines[i] >= 0));
    }
}

/* Exact values of 30, 45, 60 and 15 degrees: any table of trigonometric values. */
static void test_known_cosines(void **state)
{
    double c, s;
    angle_cos_sin(30 * ANGLE_DEGREE, &c, &s);
    assert_true(fabs(c - sqrt(3) / 2) < 1e-15 && fabs(s - 0.5) < 1e-15);
    angle_cos_sin(-315 * ANGLE_DEGREE, &c, &s);
    assert_true(fabs(c - sqrt(0.5)) < 1e-15 && fabs(s - sqrt(0.5)) < 1e-15);
    angle_cos_sin(240 * ANGLE_DEGREE, &c, &s);
    assert_true(fabs(c + 0.5) < 1e-15 && fabs(s + sqrt(3) / 2) < 1e-15);
    angle_cos_sin(15 * ANGLE_DEGREE, &c, &s);
    assert_true(fabs(c - (sqrt(6) + sqrt(2)) / 4) < 1e-15);
    assert_true(fabs(s - (sqrt(6) - sqrt(2)) / 4) < 1e-15);
}

/* The C library's cosine at every whole and some broken degrees. */
static void test_cosines_against_libm(void **state)
{
    for (int i = -3600; i <= 3600; i++) {
        double c, s;
        Angle angle = i * (ANGLE_DEGREE / 7);
        angle_cos_sin(angle, &c, &s);
        double radians = (double)angle / 1e9 * M_PI / 180;
        assert_true(fabs(c - cos(radians)) < 5e-15 && fabs(s - sin(radians)) < 5e-15);
        assert_true(fabs(c * c + s * s - 1) < 4e-16);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_inch_fractions_are_whole_nanometres),
        cmocka_unit_test(test_length_from_mm),
        cmocka_unit_test(test_millionths_read),
        cmocka_unit_test(test_millionths_read_at_the_widest),
        cmocka_unit_test(test_millionths_read_of_a_long_text),
        cmocka_unit_test(test_millionths_write),
        cmocka_unit_test(test_written_millionths_read_back),
        cmocka_unit_test(test_angle_read_and_write),
        cmocka_unit_test(test_angle_normalized),
        cmocka_unit_test(test_angle_from_degrees),
        cmocka_unit_test(test_quarter_turns_are_exact),
        cmocka_unit_test(test_known_cosines),
        cmocka_unit_test(test_cosines_against_libm),
    };
    return cmocka_run_group_tests_name("numbers", tests, NULL, NULL);
}
