/* Poses against what they do to points. */
#include "geometry/pose.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

static void assert_near(Point a, Point b)
{
    if (!(point_distance(a, b) < 1e-11)) {
        fail_msg("(%.17g, %.17g) is not (%.17g, %.17g)", a.x, a.y, b.x, b.y);
    }
}

static void test_turned_over_then_rotated_then_shifted(void **state)
{
    Pose pose = pose_from_model(10 * LENGTH_MM, 20 * LENGTH_MM, 90 * ANGLE_DEGREE, true);
    /* (1, 2) turned over is (1, -2), a quarter turn on (2, 1), shifted (12, 21). */
    Point p = pose_point(pose, (Point){1, 2});
    assert_true(p.x == 12 && p.y == 21);
    Point d = pose_direction(pose, (Point){1, 2});
    assert_true(d.x == 2 && d.y == 1);
}

static Pose random_pose(void)
{
    return pose_from_model((rand() % 200000 - 100000) * LENGTH_UM,
                           (rand() % 200000 - 100000) * LENGTH_UM, rand() % 720 * ANGLE_DEGREE / 2,
                           rand() % 2);
}

static void test_after_does_both(void **state)
{
    srand(1);
    for (int i = 0; i < 2000; i++) {
        Pose outer = random_pose(), inner = random_pose();
        Point p = {rand() % 100 - 50, rand() % 100 - 50};
        assert_near(pose_point(pose_after(outer, inner), p),
                    pose_point(outer, pose_point(inner, p)));
    }
}

static void test_inverse_takes_back(void **state)
{
    srand(2);
    for (int i = 0; i < 2000; i++) {
        Pose pose = random_pose();
        Point p = {rand() % 100 - 50, rand() % 100 - 50};
        assert_near(pose_point(pose_inverse(pose), pose_point(pose, p)), p);
        assert_near(pose_point(pose, pose_point(pose_inverse(pose), p)), p);
    }
}

static void test_identity(void **state)
{
    Point p = pose_point(POSE_IDENTITY, (Point){3, 4});
    assert_true(p.x == 3 && p.y == 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_turned_over_then_rotated_then_shifted),
        cmocka_unit_test(test_after_does_both),
        cmocka_unit_test(test_inverse_takes_back),
        cmocka_unit_test(test_identity),
    };
    return cmocka_run_group_tests_name("pose", tests, NULL, NULL);
}
