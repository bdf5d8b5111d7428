#include "cases.h"

#include "drawing/placement.h"

#include <glib.h>

static double cost_of(const double *wanted, const double *positions, size_t count)
{
    double cost = 0;
    for (size_t i = 0; i < count; i++)
        cost += (wanted[i] - positions[i]) * (wanted[i] - positions[i]);
    return cost;
}

/* The least cost on a grid of tenths, by dynamic programming over all rows there are. */
static double least_cost(const double *wanted, size_t count, int pitch, int low, int high)
{
    int span = high - low + 1;
    double *best = g_new(double, (size_t)span), *next = g_new(double, (size_t)span);
    for (int p = 0; p < span; p++)
        best[p] = 0;
    for (size_t i = 0; i < count; i++) {
        double least = INFINITY;
        for (int p = 0; p < span; p++) {
            if (i == 0)
                least = 0;
            else if (p - pitch >= 0)
                least = fmin(least, best[p - pitch]);
            double off = (low + p) / 10.0 - wanted[i];
            next[p] = least + off * off;
        }
        memcpy(best, next, sizeof(double) * (size_t)span);
    }
    double least = INFINITY;
    for (int p = 0; p < span; p++)
        least = fmin(least, best[p]);
    g_free(best);
    g_free(next);
    return least;
}

static int rising(const void *a, const void *b)
{
    double first = *(const double *)a, second = *(const double *)b;
    return (first > second) - (first < second);
}

static void test_spread_is_least(void **state)
{
    GRand *random = g_rand_new_with_seed(7);
    for (int round = 0; round < 300; round++) {
        double wanted[8], positions[8];
        size_t count = (size_t)g_rand_int_range(random, 1, 9);
        for (size_t i = 0; i < count; i++)
            wanted[i] = g_rand_int_range(random, 0, 500) / 10.0;
        qsort(wanted, count, sizeof *wanted, rising);
        memcpy(positions, wanted, sizeof wanted);
        assert_true(placement_spread(positions, count, 5, -5, 55));
        for (size_t i = 0; i < count; i++) {
            assert_true(positions[i] >= -5 - 1e-9 && positions[i] <= 55 + 1e-9);
            if (i > 0)
                assert_true(positions[i] - positions[i - 1] >= 5 - 1e-9);
        }
        /* The grid can miss the best row by half a step each. */
        double least = least_cost(wanted, count, 50, -50, 550);
        double cost = cost_of(wanted, positions, count);
        assert_true(cost <= least + 1e-9);
        assert_true(cost >= least - 0.05 * 2 * 60 * (double)count);
    }
    g_rand_free(random);
}

static void test_spread_leaves_what_has_room(void **state)
{
    double positions[] = {0.1, 10.3, 20.7, 22, 40};
    assert_true(placement_spread(positions, 5, 5, 0, 50));
    assert_true(positions[0] == 0.1 && positions[1] == 10.3 && positions[4] == 40);
    assert_true(fabs(positions[3] - positions[2] - 5) < 1e-9);
    double crowded[] = {1, 1, 1};
    assert_false(placement_spread(crowded, 3, 10, 0, 12));
    assert_true(crowded[0] == 0 && crowded[1] == 6 && crowded[2] == 12);
    assert_true(placement_spread(NULL, 0, 10, 0, 12));
}

static void test_boxes_and_lines(void **state)
{
    Placement *placement = placement_new();
    Box box = {10, 10, 20, 14};
    assert_true(placement_box_is_free(placement, box));
    placement_add_segment(placement, (Point){0, 0}, (Point){30, 24}); /* straight through */
    assert_false(placement_box_is_free(placement, box));
    placement_clear(placement);
    placement_add_segment(placement, (Point){0, 30}, (Point){30, 5}); /* past the corner: 0.83 mm */
    assert_false(placement_box_is_free(placement, box));
    placement_clear(placement);
    placement_add_circle(placement, (Point){15, 12}, 30); /* round it */
    assert_true(placement_box_is_free(placement, box));
    placement_add_disc(placement, (Point){15, 12}, 30);
    assert_false(placement_box_is_free(placement, box));
    placement_clear(placement);
    placement_add_arc(placement, (Vertex){0, 12, 5}, (Point){10, 12}); /* bulges down, away */
    assert_false(placement_box_is_free(placement, box));               /* its end touches */
    placement_clear(placement);
    placement_set_area(placement, (Box){0, 0, 19, 19});
    assert_false(placement_box_is_free(placement, box));
    placement_free(placement);
}

/* Labels of a row of circles: no box meets another box or another circle. */
static void test_labels_are_apart(void **state)
{
    Placement *placement = placement_new();
    placement_set_area(placement, (Box){0, 0, 120, 80});
    LabelRequest requests[40];
    LabelPlace places[40];
    for (int i = 0; i < 40; i++) {
        Point centre = {12 + i % 10 * 11.0, 14 + i / 10 * 14.0};
        placement_add_disc(placement, centre, 2);
        placement_add_circle(placement, centre, 2);
        requests[i] = (LabelRequest){.centre = centre, .radius = 2, .width = 7, .height = 3.5};
    }
    assert_int_equal(placement_labels(placement, requests, 40, places), 0);
    for (int i = 0; i < 40; i++) {
        Box box = places[i].box;
        assert_true(places[i].found);
        for (int j = 0; j < i; j++)
            assert_false(box_meets(box, places[j].box));
        for (int j = 0; j < 40; j++) {
            Point centre = requests[j].centre;
            Point near = {fmin(fmax(centre.x, box.x0), box.x1),
                          fmin(fmax(centre.y, box.y0), box.y1)};
            assert_true(point_distance(near, centre) > 2);
        }
    }
    placement_free(placement);
}

static void test_no_room_is_said(void **state)
{
    Placement *placement = placement_new();
    LabelRequest request = {.centre = {5, 5}, .radius = 1, .width = 30, .height = 3.5};
    LabelPlace place;
    placement_set_area(placement, (Box){0, 0, 10, 10});
    assert_int_equal(placement_labels(placement, &request, 1, &place), 1);
    assert_false(place.found);
    assert_int_equal(placement_labels(placement, NULL, 0, NULL), 0);
    placement_free(placement);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_spread_is_least), cmocka_unit_test(test_spread_leaves_what_has_room),
        cmocka_unit_test(test_boxes_and_lines), cmocka_unit_test(test_labels_are_apart),
        cmocka_unit_test(test_no_room_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
