/* The way between holes against trying every order. */
#include "shopplan/path.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define FEW 7

static double shortest_from(Point at, const Point *points, bool *used, size_t count, size_t left)
{
    double best = INFINITY;
    if (left == 0)
        return 0;
    for (size_t i = 0; i < count; i++) {
        if (used[i])
            continue;
        used[i] = true;
        double length =
            point_distance(at, points[i]) + shortest_from(points[i], points, used, count, left - 1);
        best = fmin(best, length);
        used[i] = false;
    }
    return best;
}

static void assert_each_once(const uint32_t *order, size_t count)
{
    bool *seen = g_new0(bool, count + 1);
    for (size_t i = 0; i < count; i++) {
        assert_true(order[i] < count);
        assert_false(seen[order[i]]);
        seen[order[i]] = true;
    }
    g_free(seen);
}

static void test_against_every_order(void **unused)
{
    uint32_t seed = 3;
    int equal = 0, rounds = 300;
    for (int round = 0; round < rounds; round++) {
        Point points[FEW];
        bool used[FEW] = {false};
        uint32_t order[FEW];
        size_t count = 1 + (size_t)random_between(&seed, 0, FEW);
        for (size_t i = 0; i < count; i++)
            points[i] = (Point){random_between(&seed, 0, 200), random_between(&seed, 0, 150)};
        double length = path_order((Point){0, 0}, points, count, order);
        double best = shortest_from((Point){0, 0}, points, used, count, count);
        assert_each_once(order, count);
        assert_true(length >= best - 1e-9);
        /* Never far off, and nearly always the shortest. */
        assert_true(length <= 1.15 * best);
        equal += length <= best + 1e-9;
    }
    assert_true(equal >= rounds * 95 / 100);
}

/* A row of holes is drilled from one end to the other, whatever order they come in. */
static void test_row(void **unused)
{
    static const double x[] = {50, 10, 40, 20, 30};
    static const uint32_t expected[] = {1, 3, 4, 2, 0};
    Point points[5];
    uint32_t order[5];
    for (int i = 0; i < 5; i++)
        points[i] = (Point){x[i], 0};
    assert_true(fabs(path_order((Point){0, 0}, points, 5, order) - 50) < 1e-9);
    assert_memory_equal(order, expected, sizeof expected);
}

/* A grid of 20 by 10 at 10 mm: no way is shorter than 199 legs of 10 mm. */
static void test_grid(void **unused)
{
    Point points[200];
    uint32_t order[200], again[200];
    for (int i = 0; i < 200; i++)
        points[i] = (Point){10 * (i * 7 % 20), 10 * (i * 7 % 200 / 20)};
    double length = path_order((Point){0, 0}, points, 200, order);
    assert_each_once(order, 200);
    assert_true(length >= 1990 - 1e-6 && length <= 1.1 * 1990);
    path_order((Point){0, 0}, points, 200, again);
    assert_memory_equal(order, again, sizeof order);
}

/* Places on one another, and no places at all. */
static void test_same_places(void **unused)
{
    Point points[4] = {{1, 1}, {1, 1}, {1, 1}, {1, 1}};
    uint32_t order[4];
    assert_true(fabs(path_order((Point){1, 1}, points, 4, order)) < 1e-12);
    assert_each_once(order, 4);
    assert_true(path_order((Point){1, 1}, NULL, 0, NULL) == 0);
}

/* 20,000 places: each once, and the way no longer than 1.1 sqrt(count x area); a shortest closed
 * way through so many random places comes to 0.7124 of it, and the best strips to 0.92 (both from
 * memory). */
static void test_many_places(void **unused)
{
    enum { COUNT = 20000 };
    uint32_t seed = 8, *order = g_new(uint32_t, COUNT);
    Point *points = g_new(Point, COUNT);
    for (int i = 0; i < COUNT; i++)
        points[i] = (Point){random_between(&seed, 0, 400), random_between(&seed, 0, 300)};
    double length = path_order((Point){0, 0}, points, COUNT, order);
    assert_each_once(order, COUNT);
    assert_true(length < 1.1 * sqrt((double)COUNT * 400 * 300));
    g_free(points);
    g_free(order);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_against_every_order),
        cmocka_unit_test(test_row),
        cmocka_unit_test(test_grid),
        cmocka_unit_test(test_same_places),
        cmocka_unit_test(test_many_places),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
