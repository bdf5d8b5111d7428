/* Rigid fits: least squares against GSL's singular values, least greatest deviation and least
 * squares within plays against a grid that is refined round its best places. */
#include "refit/rigid-fit.h"
#include "support/plates.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define MOST 40

#define assert_near(a, b, within) assert_true(fabs((a) - (b)) <= (within))

typedef struct Case {
    Point from[MOST], to[MOST];
    double plays[MOST];
    size_t count;
    bool turned_over;
} Case;

static Case random_case(uint32_t *seed, double noise)
{
    Case c = {.count = 3 + (size_t)random_between(seed, 0, MOST - 3)};
    c.turned_over = random_between(seed, 0, 1) < 0.5;
    double angle = random_between(seed, -M_PI, M_PI);
    Pose pose = {random_between(seed, -200, 200), random_between(seed, -200, 200), cos(angle),
                 sin(angle), c.turned_over};
    for (size_t i = 0; i < c.count; i++) {
        c.from[i] = (Point){random_between(seed, 0, 200), random_between(seed, 0, 150)};
        c.to[i] = pose_point(pose, c.from[i]);
        c.to[i].x += random_between(seed, -noise, noise);
        c.to[i].y += random_between(seed, -noise, noise);
        c.plays[i] = random_between(seed, 0.3, 3) * noise;
    }
    return c;
}

/* The rotation by singular values: R = V diag(1, det(V U')) U' of the matrix sum(from to') = U S
 * V', the textbook solution (Arun, Huang, Blostein 1987; from memory), by GSL. */
static Pose by_singular_values(const Case *c)
{
    Point p = {0, 0}, q = {0, 0};
    double n = (double)c->count;
    for (size_t i = 0; i < c->count; i++) {
        double y = c->turned_over ? -c->from[i].y : c->from[i].y;
        p = point_plus(p, (Point){c->from[i].x / n, y / n});
        q = point_plus(q, point_times(c->to[i], 1 / n));
    }
    gsl_matrix *u = gsl_matrix_calloc(2, 2), *v = gsl_matrix_calloc(2, 2);
    gsl_matrix *r = gsl_matrix_calloc(2, 2), *flip = gsl_matrix_calloc(2, 2);
    gsl_matrix *product = gsl_matrix_calloc(2, 2);
    gsl_vector *s = gsl_vector_alloc(2), *work = gsl_vector_alloc(2);
    for (size_t i = 0; i < c->count; i++) {
        double y = c->turned_over ? -c->from[i].y : c->from[i].y;
        double a[2] = {c->from[i].x - p.x, y - p.y};
        double b[2] = {c->to[i].x - q.x, c->to[i].y - q.y};
        for (size_t k = 0; k < 4; k++)
            *gsl_matrix_ptr(u, k / 2, k % 2) += a[k / 2] * b[k % 2];
    }
    gsl_linalg_SV_decomp(u, v, s, work);
    gsl_blas_dgemm(CblasNoTrans, CblasTrans, 1, v, u, 0, r);
    double determinant = gsl_matrix_get(r, 0, 0) * gsl_matrix_get(r, 1, 1) -
                         gsl_matrix_get(r, 0, 1) * gsl_matrix_get(r, 1, 0);
    gsl_matrix_set(flip, 0, 0, 1);
    gsl_matrix_set(flip, 1, 1, determinant < 0 ? -1 : 1);
    gsl_blas_dgemm(CblasNoTrans, CblasNoTrans, 1, v, flip, 0, product);
    gsl_blas_dgemm(CblasNoTrans, CblasTrans, 1, product, u, 0, r);
    Pose pose = {0, 0, gsl_matrix_get(r, 0, 0), gsl_matrix_get(r, 1, 0), c->turned_over};
    pose.x = q.x - (pose.cosine * p.x - pose.sine * p.y);
    pose.y = q.y - (pose.sine * p.x + pose.cosine * p.y);
    gsl_matrix_free(u);
    gsl_matrix_free(v);
    gsl_matrix_free(r);
    gsl_matrix_free(flip);
    gsl_matrix_free(product);
    gsl_vector_free(s);
    gsl_vector_free(work);
    return pose;
}

static void least_squares_is_that_of_singular_values(void **state)
{
    uint32_t seed = 12345;
    for (int i = 0; i < 2000; i++) {
        Case c = random_case(&seed, i % 2 ? 0.05 : 60);
        RigidFit fit;
        assert_true(rigid_fit_squares(c.from, c.to, c.count, c.turned_over, &fit));
        Pose reference = by_singular_values(&c);
        assert_near(fit.pose.cosine, reference.cosine, 1e-10);
        assert_near(fit.pose.sine, reference.sine, 1e-10);
        assert_near(fit.pose.x, reference.x, 1e-8);
        assert_near(fit.pose.y, reference.y, 1e-8);
    }
}

/* --- a grid, refined ------------------------------------------------------------------------ */

typedef enum Goal { GOAL_GREATEST, GOAL_SQUARES_WITHIN } Goal;

static double goal_at(const Case *c, Goal goal, const double x[3])
{
    Pose pose = {x[1], x[2], cos(x[0]), sin(x[0]), c->turned_over};
    double greatest = 0, squares = 0;
    for (size_t i = 0; i < c->count; i++) {
        double e = point_distance(pose_point(pose, c->from[i]), c->to[i]);
        greatest = fmax(greatest, e / c->plays[i]);
        squares += e * e;
    }
    if (goal == GOAL_GREATEST)
        return greatest;
    return greatest <= 1 + 1e-9 ? squares : INFINITY;
}

/* Points are given about their middle, so that turn and shift hardly depend on each other. Each
 * round lays a grid of 9 x 9 x 9 round the best place and draws it in. */
static double by_grid(const Case *c, Goal goal, double x[3], double turn, double shift)
{
    double best = goal_at(c, goal, x);
    for (int round = 0; round < 60; round++) {
        double at[3] = {x[0], x[1], x[2]};
        for (int n = 0; n < 729; n++) {
            double step[3] = {at[0] + turn * (n % 9 - 4) / 4.0,
                              at[1] + shift * (n / 9 % 9 - 4) / 4.0,
                              at[2] + shift * (n / 81 - 4) / 4.0};
            double value = goal_at(c, goal, step);
            if (value < best) {
                best = value;
                x[0] = step[0], x[1] = step[1], x[2] = step[2];
            }
        }
        turn *= 0.75;
        shift *= 0.75;
    }
    return best;
}

static Case middled(Case c)
{
    Point p = {0, 0};
    for (size_t i = 0; i < c.count; i++)
        p = point_plus(p, point_times(c.from[i], 1.0 / (double)c.count));
    for (size_t i = 0; i < c.count; i++)
        c.from[i] = point_minus(c.from[i], p);
    return c;
}

static void least_greatest_deviation_is_the_grids(void **state)
{
    uint32_t seed = 777;
    for (int i = 0; i < 60; i++) {
        Case c = random_case(&seed, 0.1);
        RigidFit fit, squares;
        double share;
        if (c.count > 12)
            c.count = 12;
        c = middled(c);
        assert_true(
            rigid_fit_greatest(c.from, c.to, c.plays, c.count, c.turned_over, &fit, &share));
        rigid_fit_squares(c.from, c.to, c.count, c.turned_over, &squares);
        double x[3] = {atan2(squares.pose.sine, squares.pose.cosine), squares.pose.x,
                       squares.pose.y};
        double grid = by_grid(&c, GOAL_GREATEST, x, 0.004, 0.4);
        /* The grid stops a little above the least; nothing may lie below the answer. */
        assert_true(share <= grid * (1 + 1e-6));
        assert_near(share, grid, 1e-2 * grid);
        double own[3] = {atan2(fit.pose.sine, fit.pose.cosine), fit.pose.x, fit.pose.y};
        assert_near(goal_at(&c, GOAL_GREATEST, own), share, 1e-9 + 1e-9 * share);
        assert_true(by_grid(&c, GOAL_GREATEST, own, 0.0005, 0.05) >= share * (1 - 1e-6));
    }
}

/* Deviations as large as the figure itself: many rotations look good at first. */
static void least_greatest_deviation_is_found_among_all_rotations(void **state)
{
    uint32_t seed = 4242;
    for (int i = 0; i < 40; i++) {
        Case c = random_case(&seed, 300);
        RigidFit fit;
        double share, best = INFINITY;
        if (c.count > 6)
            c.count = 6;
        c = middled(c);
        assert_true(
            rigid_fit_greatest(c.from, c.to, c.plays, c.count, c.turned_over, &fit, &share));
        for (int start = 0; start < 24; start++) {
            double x[3] = {start * M_PI / 12, fit.pose.x, fit.pose.y};
            best = fmin(best, by_grid(&c, GOAL_GREATEST, x, 0.3, 150));
        }
        assert_true(share <= best * (1 + 1e-6));
        assert_near(share, best, 1e-2 * best);
    }
}

/* Worked by hand: a square of side 2 whose corners lie out along the diagonals by 0.1, 0.3, 0.1 and
 * 0.3: turn and shift can take nothing off, so 0.3 stays. With one corner alone out by 0.4 along
 * its diagonal, a shift of half of it shares it between that corner and the opposite one. */
static void known_greatest_deviations(void **state)
{
    const double d = M_SQRT1_2;
    const Point square[4] = {{1, 1}, {-1, 1}, {-1, -1}, {1, -1}};
    const Point stretched[4] = {{1 + 0.1 * d, 1 + 0.1 * d},
                                {-1 - 0.3 * d, 1 + 0.3 * d},
                                {-1 - 0.1 * d, -1 - 0.1 * d},
                                {1 + 0.3 * d, -1 - 0.3 * d}};
    const Point one_out[4] = {{1 + 0.4 * d, 1 + 0.4 * d}, {-1, 1}, {-1, -1}, {1, -1}};
    RigidFit fit;
    assert_true(rigid_fit_greatest(square, stretched, NULL, 4, false, &fit, NULL));
    assert_near(fit.greatest, 0.3, 1e-9);
    assert_true(rigid_fit_greatest(square, one_out, NULL, 4, false, &fit, NULL));
    assert_near(fit.greatest, 0.2, 1e-9);
}

static void least_squares_within_plays_is_the_grids(void **state)
{
    uint32_t seed = 99;
    int none = 0, held = 0;
    for (int i = 0; i < 120; i++) {
        Case c = random_case(&seed, 0.05);
        RigidFit fit, greatest, squares;
        double share;
        c.count = 3 + (size_t)i % 3;
        c = middled(c);
        bool some = rigid_fit_within(c.from, c.to, c.plays, c.count, c.turned_over, &fit);
        rigid_fit_greatest(c.from, c.to, c.plays, c.count, c.turned_over, &greatest, &share);
        rigid_fit_squares(c.from, c.to, c.count, c.turned_over, &squares);
        assert_int_equal(some, share <= 1);
        none += !some;
        if (!some || share > 0.97)
            continue;
        double x[3] = {atan2(greatest.pose.sine, greatest.pose.cosine), greatest.pose.x,
                       greatest.pose.y};
        double own[3] = {atan2(fit.pose.sine, fit.pose.cosine), fit.pose.x, fit.pose.y};
        double ours = goal_at(&c, GOAL_SQUARES_WITHIN, own);
        double grid = by_grid(&c, GOAL_SQUARES_WITHIN, x, 0.002, 0.1);
        held += ours > (double)c.count * squares.rms * squares.rms * 1.001;
        assert_true(ours <= grid * (1 + 1e-4) + 1e-9);
    }
    /* The cases are such that all three things happen. */
    assert_true(none > 5 && held > 5);
}

static void few_points_are_no_trouble(void **state)
{
    const Point one[2] = {{3, 4}, {3, 4}}, there[2] = {{10, 20}, {10, 20}};
    const double plays[2] = {0.1, 0.1};
    RigidFit fit;
    double share;
    assert_false(rigid_fit_squares(one, there, 0, false, &fit));
    assert_false(rigid_fit_greatest(one, there, NULL, 0, true, &fit, NULL));
    assert_false(rigid_fit_within(one, there, plays, 0, true, &fit));
    for (size_t count = 1; count <= 2; count++) {
        assert_true(rigid_fit_greatest(one, there, plays, count, true, &fit, &share));
        assert_near(fit.greatest, 0, 1e-12);
        assert_near(share, 0, 1e-9);
        assert_true(rigid_fit_within(one, there, plays, count, false, &fit));
        assert_near(fit.pose.x, 7, 1e-12);
        assert_near(fit.pose.y, 16, 1e-12);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(least_squares_is_that_of_singular_values),
        cmocka_unit_test(least_greatest_deviation_is_the_grids),
        cmocka_unit_test(least_greatest_deviation_is_found_among_all_rotations),
        cmocka_unit_test(known_greatest_deviations),
        cmocka_unit_test(least_squares_within_plays_is_the_grids),
        cmocka_unit_test(few_points_are_no_trouble),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
