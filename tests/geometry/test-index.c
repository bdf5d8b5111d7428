/* The index against looking at every box. */
#include "geometry/index.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#define KEYS 5000

typedef struct Answer {
    uint32_t keys[KEYS + 100];
    size_t count, most;
} Answer;

static bool note(uint32_t key, void *data)
{
    Answer *answer = data;
    answer->keys[answer->count++] = key;
    return answer->count < answer->most;
}

static uint32_t random_state = 1;

static double random_between(double low, double high)
{
    random_state = random_state * 1664525u + 1013904223u;
    return low + (high - low) * (random_state >> 8) / 16777216.0;
}

static Box random_box(double spread, double least, double most)
{
    double x = random_between(-spread, spread), y = random_between(-spread, spread);
    double size = least * pow(most / least, random_between(0, 1));
    return (Box){x, y, x + size * random_between(0.2, 1), y + size};
}

/* Keys far apart, as ids are. */
static uint32_t key_of(size_t i)
{
    return (uint32_t)(i * 2654435761u);
}

static void compare(const Index *index, const Box *boxes, const bool *there, size_t count, Box box)
{
    Answer *answer = malloc(sizeof *answer);
    assert_non_null(answer);
    answer->count = 0;
    answer->most = SIZE_MAX;
    index_each_near(index, box, note, answer);
    size_t expected = 0;
    for (size_t i = 0; i < count; i++) {
        expected += there[i] && box_meets(boxes[i], box);
    }
    assert_int_equal(answer->count, expected);
    for (size_t i = 0; i < answer->count; i++) {
        /* key_of's inverse: 2654435761 * 244002641 is 1 modulo 2^32 */
        size_t which = (uint32_t)(answer->keys[i] * 244002641u);
        assert_true(which < count && there[which] && box_meets(boxes[which], box));
        assert_true(i == 0 || answer->keys[i] > answer->keys[i - 1]);
    }
    free(answer);
}

static void random_life(double spread, double least, double most)
{
    static Box boxes[KEYS];
    static bool there[KEYS];
    Index *index = index_new();
    assert_non_null(index);
    size_t inside = 0;
    for (size_t i = 0; i < KEYS; i++) {
        there[i] = false;
    }
    for (int step = 0; step < 40000; step++) {
        size_t i = (size_t)random_between(0, KEYS);
        if (random_between(0, 1) < 0.2) {
            index_remove(index, key_of(i));
            inside -= there[i];
            there[i] = false;
            assert_true(box_is_empty(index_box(index, key_of(i))));
        } else {
            boxes[i] = random_box(spread, least, most);
            inside += !there[i];
            there[i] = true;
            assert_true(index_put(index, key_of(i), boxes[i]));
            assert_true(index_box(index, key_of(i)).x0 == boxes[i].x0);
        }
        assert_int_equal(index_count(index), inside);
        if (step % 100 == 0) {
            compare(index, boxes, there, KEYS, random_box(spread, least, most * 3));
        }
    }
    compare(index, boxes, there, KEYS, (Box){-1e9, -1e9, 1e9, 1e9});
    compare(index, boxes, there, KEYS, (Box){-INFINITY, -INFINITY, INFINITY, INFINITY});
    compare(index, boxes, there, KEYS, (Box){0, 0, 0, 0});
    index_free(index);
}

static void test_boxes_of_one_size(void **state)
{
    random_life(400, 3, 12);
}

static void test_boxes_of_all_sizes(void **state)
{
    random_life(400, 1e-4, 2000);
}

static void test_boxes_far_and_wide(void **state)
{
    random_life(1e7, 1, 100);
    random_life(1e-3, 1e-9, 1e-4);
}

/* More of them than any table has room for, all larger than the greatest cell. */
static void test_very_large_boxes(void **state)
{
    Index *index = index_new();
    for (uint32_t i = 0; i < 300; i++) {
        assert_true(index_put(index, i, (Box){-1e300, -1e10 * i, 1e300, i}));
    }
    static Answer answer;
    answer.count = 0;
    answer.most = SIZE_MAX;
    index_each_near(index, (Box){5, 100, 6, 100}, note, &answer);
    assert_int_equal(answer.count, 200);
    index_free(index);
}

static void test_a_visitor_that_stops(void **state)
{
    Index *index = index_new();
    for (uint32_t i = 0; i < KEYS; i++) {
        assert_true(index_put(index, KEYS - i, (Box){i % 70, 0, i % 70 + 3, 2}));
    }
    Answer answer = {.most = 4};
    index_each_near(index, (Box){-9, -9, 99, 99}, note, &answer);
    assert_int_equal(answer.count, 4);
    assert_int_equal(answer.keys[3], 4);
    index_free(index);
}

static void test_odd_boxes(void **state)
{
    Index *index = index_new();
    assert_true(index_put(index, 1, BOX_EMPTY));
    assert_true(index_put(index, 2, (Box){NAN, 0, 1, 1}));
    assert_true(index_put(index, 3, (Box){-INFINITY, -INFINITY, INFINITY, INFINITY}));
    assert_true(index_put(index, UINT32_MAX, (Box){5, 5, 5, 5}));
    assert_true(index_put(index, 0, (Box){-1e300, 4, 1e300, 6}));
    Answer answer = {.most = SIZE_MAX};
    index_each_near(index, (Box){5, 5, 6, 6}, note, &answer);
    assert_int_equal(answer.count, 3);
    assert_int_equal(answer.keys[0], 0);
    assert_int_equal(answer.keys[1], 3);
    assert_true(answer.keys[2] == UINT32_MAX);
    answer.count = 0;
    index_each_near(index, BOX_EMPTY, note, &answer);
    index_each_near(index, (Box){NAN, NAN, NAN, NAN}, note, &answer);
    assert_int_equal(answer.count, 0);
    index_remove(index, 77);
    index_free(index);
    index_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_boxes_of_one_size),  cmocka_unit_test(test_boxes_of_all_sizes),
        cmocka_unit_test(test_boxes_far_and_wide), cmocka_unit_test(test_a_visitor_that_stops),
        cmocka_unit_test(test_odd_boxes),          cmocka_unit_test(test_very_large_boxes),
    };
    return cmocka_run_group_tests_name("index", tests, NULL, NULL);
}
