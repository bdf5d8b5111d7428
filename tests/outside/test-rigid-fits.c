/* A rigid fit whose result is printed in the paper that it is known from. */
#include "published.h"
#include "refit/rigid-fit.h"

#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

/* Umeyama, Least-squares estimation of transformation parameters between two point patterns, IEEE
 * Trans. PAMI 13 (1991) 376-380: its example, in which singular values alone would mirror. The
 * paper scales as well, which leaves the rotation as it is. Its figures were read where a public
 * library's test repeats them, not in the paper. */
static void umeyama(void **state)
{
    const char *source = "Umeyama 1991, IEEE Trans. PAMI 13:4, worked example";
    const Point from[] = {{0, 0}, {1, 0}, {0, 2}}, to[] = {{0, 0}, {-1, 0}, {0, 2}};
    RigidFit fit;
    assert_true(rigid_fit_squares(from, to, 3, false, &fit));
    published("rigid fit of (0,0) (1,0) (0,2) to (0,0) (-1,0) (0,2): cosine", fit.pose.cosine,
              "0.832", "", source, SEEN);
    published("the same: sine", fit.pose.sine, "-0.555", "", source, SEEN);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(umeyama),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
