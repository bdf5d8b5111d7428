#include "cases.h"

#include "drawing/line-kind.h"

#include <math.h>

/* ISO 128-2, line group 0.5 (from memory): wide 0.5, narrow 0.25; ISO 5457: frame 0.7. */
static void test_widths(void **state)
{
    assert_true(line_kind_width(LINE_VISIBLE) == 0.5);
    assert_true(line_kind_width(LINE_FRAME) == 0.7);
    const LineKind narrow[] = {LINE_HIDDEN,    LINE_CENTRE, LINE_PHANTOM,
                               LINE_DIMENSION, LINE_THREAD, LINE_HATCHING};
    for (size_t i = 0; i < sizeof narrow / sizeof *narrow; i++)
        assert_true(line_kind_width(narrow[i]) == 0.25);
}

/* ISO 128-2 (from memory): gap 3d, dash 12d, long dash 24d, dot no longer than 0.5d. */
static void test_dashes(void **state)
{
    size_t count;
    const double *dashes = line_kind_dashes(LINE_HIDDEN, &count);
    assert_int_equal(count, 2);
    assert_true(dashes[0] == 3 && dashes[1] == 0.75);
    dashes = line_kind_dashes(LINE_CENTRE, &count);
    assert_int_equal(count, 4);
    assert_true(dashes[0] == 6 && dashes[1] == 0.75 && dashes[2] <= 0.125 && dashes[3] == 0.75);
    line_kind_dashes(LINE_PHANTOM, &count);
    assert_int_equal(count, 6);
    line_kind_dashes(LINE_VISIBLE, &count);
    assert_int_equal(count, 0);
}

/* Whether the pattern has ink at a place along it. */
static bool has_ink(const double *dashes, size_t count, double at)
{
    double period = 0;
    for (size_t i = 0; i < count; i++)
        period += dashes[i];
    at = fmod(at, period);
    size_t i = 0;
    while (at >= dashes[i])
        at -= dashes[i++];
    return i % 2 == 0;
}

/* Walks from both ends at once: the same ink must be met. */
static void test_ends_alike(void **state)
{
    const LineKind kinds[] = {LINE_HIDDEN, LINE_CENTRE, LINE_PHANTOM};
    for (size_t k = 0; k < 3; k++) {
        size_t count;
        const double *dashes = line_kind_dashes(kinds[k], &count);
        for (double length = 1; length < 60; length += 0.37) {
            double phase = line_kind_phase(kinds[k], length);
            assert_true(phase >= 0);
            assert_true(has_ink(dashes, count, phase));
            int unlike = 0;
            for (double at = 0.013; at < length / 2; at += 0.05)
                unlike += has_ink(dashes, count, phase + at) !=
                          has_ink(dashes, count, phase + length - at);
            assert_int_equal(unlike, 0);
        }
    }
    assert_true(line_kind_phase(LINE_VISIBLE, 10) == 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_widths),
        cmocka_unit_test(test_dashes),
        cmocka_unit_test(test_ends_alike),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
