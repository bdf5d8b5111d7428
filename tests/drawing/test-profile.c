#include "cases.h"

#include "drawing/hole-profile.h"

#include <math.h>

#define MM LENGTH_MM
#define DEGREE ANGLE_DEGREE

static void test_tapped(void **state)
{
    Step steps[] = {
        {.kind = STEP_SPOT, .diameter = 8 * MM, .depth = 4 * MM, .point = 90 * DEGREE},
        {.kind = STEP_DRILL, .diameter = 5 * MM, .depth = 16 * MM, .point = 118 * DEGREE},
        {.kind = STEP_TAP, .diameter = 6 * MM, .depth = 12 * MM}};
    Hole hole = {.steps = {3, steps}};
    HoleProfile profile = hole_profile(&hole, 20);
    assert_int_equal(profile.count, 2);
    assert_true(profile.steps[0].radius == 4 && profile.steps[0].bottom == 0);
    assert_true(profile.steps[1].radius == 2.5 && profile.steps[1].bottom == 16);
    /* Handbook: the point of a 118 degree drill is 0.3004 D long. */
    assert_true(fabs(profile.steps[1].tip - 16 - 0.3004 * 5) < 0.001);
    assert_true(profile.thread_radius == 3 && profile.thread_bottom == 12);
}

static void test_drill_before_reamer_is_gone(void **state)
{
    Step steps[] = {{.kind = STEP_SPOT, .diameter = 4 * MM, .depth = 2 * MM, .point = 90 * DEGREE},
                    {.kind = STEP_DRILL, .diameter = 58 * MM / 10, .through = true},
                    {.kind = STEP_REAM, .diameter = 6 * MM, .through = true}};
    Hole hole = {.steps = {3, steps}};
    HoleProfile profile = hole_profile(&hole, 20);
    assert_int_equal(profile.count, 1);
    assert_true(profile.steps[0].radius == 3 && profile.steps[0].bottom == 20);
    assert_true(profile.steps[0].tip == 20);
}

static void test_counterbore_comes_first(void **state)
{
    Step steps[] = {{.kind = STEP_DRILL, .diameter = 66 * MM / 10, .through = true},
                    {.kind = STEP_COUNTERBORE, .diameter = 11 * MM, .depth = 7 * MM}};
    Hole hole = {.steps = {2, steps}};
    HoleProfile profile = hole_profile(&hole, 20);
    assert_int_equal(profile.count, 2);
    assert_true(profile.steps[0].radius == 5.5 && profile.steps[0].bottom == 7);
    assert_true(profile.steps[1].radius == 3.3 && profile.steps[1].bottom == 20);
}

static void test_same_step_twice(void **state)
{
    Step steps[] = {{.kind = STEP_DRILL, .diameter = 5 * MM, .depth = 10 * MM},
                    {.kind = STEP_DRILL, .diameter = 5 * MM, .depth = 10 * MM}};
    Hole hole = {.steps = {2, steps}};
    assert_int_equal(hole_profile(&hole, 20).count, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tapped),
        cmocka_unit_test(test_drill_before_reamer_is_gone),
        cmocka_unit_test(test_counterbore_comes_first),
        cmocka_unit_test(test_same_step_twice),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
