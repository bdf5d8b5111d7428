/* Finding threads, and their figures where no standard's table is needed. */
#include "trade/thread.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

static void found(const char *typed, const char *name)
{
    Error error = {0};
    const Thread *thread = thread_find(typed, &error);
    if (!thread)
        fail_msg("%s: %s", typed, error.message);
    assert_string_equal(thread->name, name);
}

static void threads_are_found_as_people_write_them(void **state)
{
    found("1/4-20", "1/4-20");
    found("1/4-20 UNC", "1/4-20");
    found("1/4\"-20", "1/4-20");
    found("#8-32", "8-32");
    found("No. 8-32", "8-32");
    found("8-32 unc", "8-32");
    found("M6", "M6x1");
    found("M6x1.0", "M6x1");
    found("m8 x 1.25", "M8x1.25");
    found("M8\xc3\x97"
          "1",
          "M8x1");
    found("1-8", "1-8");
}

static void a_thread_that_is_not_there_names_its_neighbours(void **state)
{
    Error error = {0};
    assert_null(thread_find("1/4-24", &error));
    assert_non_null(strstr(error.message, "1/4-20"));
    assert_non_null(strstr(error.message, "1/4-28"));
    assert_null(thread_find("M9x1", &error));
    assert_non_null(strstr(error.message, "M8x1"));
    assert_null(thread_find("8-30", &error));
    assert_non_null(strstr(error.message, "8-32"));
    assert_null(thread_find("", &error));
}

static void holes_and_per_cent_are_each_others_inverse(void **state)
{
    for (size_t i = 0; i < thread_count(); i++) {
        const Thread *thread = thread_at(i);
        assert_true(fabs(thread_per_cent(thread, thread_hole_for_cut(thread, 72)) - 72) < 1e-9);
        assert_true(fabs(thread_per_cent_formed(thread, thread_hole_for_form(thread, 65)) - 65) <
                    1e-9);
        assert_true(thread_hole_for_form(thread, 65) > thread_hole_for_cut(thread, 65));
    }
}

static void limits_lie_in_order(void **state)
{
    for (size_t i = 0; i < thread_count(); i++) {
        ThreadLimits limits;
        Error error = {0};
        const Thread *thread = thread_at(i);
        if (!thread_limits(thread, &limits, &error))
            fail_msg("%s: %s", thread->name, error.message);
        assert_true(limits.external_major_greatest < thread->major);
        assert_true(limits.external_major_least < limits.external_major_greatest);
        assert_true(limits.external_pitch_least < limits.external_pitch_greatest);
        assert_true(limits.external_pitch_greatest < limits.internal_pitch_least);
        assert_true(limits.internal_pitch_least < limits.internal_pitch_greatest);
        assert_true(limits.internal_minor_least < limits.internal_minor_greatest);
        assert_true(limits.internal_minor_greatest < limits.internal_pitch_greatest);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(threads_are_found_as_people_write_them),
        cmocka_unit_test(a_thread_that_is_not_there_names_its_neighbours),
        cmocka_unit_test(holes_and_per_cent_are_each_others_inverse),
        cmocka_unit_test(limits_lie_in_order),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
