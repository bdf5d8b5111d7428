/* Reading fits, what they mean, and what is refused. */
#include "trade/fit.h"

#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

static Fit fit_of(const char *text)
{
    Fit fit;
    Error error = {0};
    if (!fit_read(text, &fit, &error))
        fail_msg("%s: %s", text, error.message);
    return fit;
}

static void fits_are_read(void **state)
{
    Fit fit = fit_of("10H7/g6");
    assert_int_equal(fit.nominal, 10000000);
    assert_int_equal(fit.hole.greatest, 10015000);
    assert_int_equal(fit.hole.least, 10000000);
    assert_int_equal(fit.shaft.greatest, 9995000);
    assert_int_equal(fit.shaft.least, 9986000);
    assert_int_equal(fit.clearance_greatest, 29000);
    assert_int_equal(fit.clearance_least, 5000);
    assert_int_equal(fit_of("10 H7 / g6").clearance_least, 5000);
    assert_int_equal(fit_of("0.25in H7/m6").nominal, 6350000);
    assert_int_equal(fit_of("8JS7/h6").hole.greatest, 8007500);
}

static void meanings_are_said(void **state)
{
    assert_int_equal(fit_of("10H7/g6").meaning, FIT_SLIDE);
    assert_int_equal(fit_of("10H7/h6").meaning, FIT_SLIDE);
    assert_int_equal(fit_of("10H7/m6").meaning, FIT_PRESS);
    assert_int_equal(fit_of("10H7/zc6").meaning, FIT_WILL_NOT_GO);
    assert_int_equal(fit_of("10H9/d9").meaning, FIT_LOOSE);
    assert_string_equal(fit_meaning_text(FIT_WILL_NOT_GO), "will not go");
}

static void inch_limits_may_be_given(void **state)
{
    Fit fit;
    /* A 0.2502 +- 0.0001 in pin in a hole reamed 0.2495 to 0.2500 in. */
    fit_of_limits(6350000, (SizeLimits){6350000, 6337300}, (SizeLimits){6357620, 6352540}, &fit);
    assert_int_equal(fit.clearance_least, -20320);
    assert_int_equal(fit.clearance_greatest, -2540);
    assert_int_equal(fit.meaning, FIT_WILL_NOT_GO + (fit.clearance_least >= -16350));
}

static void refused(const char *text, const char *word)
{
    Fit fit;
    Error error = {0};
    if (fit_read(text, &fit, &error))
        fail_msg("%s was read", text);
    if (!strstr(error.message, word))
        fail_msg("%s: \"%s\" does not say \"%s\"", text, error.message, word);
}

static void what_is_not_defined_is_refused(void **state)
{
    refused("10", "10H7/g6");
    refused("H7/g6", "nothing");
    refused("10H7/G6", "small");
    refused("60H7/g6", "50 mm");
    refused("0.5H7/g6", "50 mm");
    refused("10H19/g6", "tolerance class");
    refused("10H7/t6", "defines no class");
    refused("10K9/h6", "defines no class");
    refused("10H7/i6", "defines no class");
    refused("10H7/q6", "defines no class");
    refused("10H7/", "tolerance class");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fits_are_read),
        cmocka_unit_test(meanings_are_said),
        cmocka_unit_test(inch_limits_may_be_given),
        cmocka_unit_test(what_is_not_defined_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
