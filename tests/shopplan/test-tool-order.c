/* The row of tools against trying every row there is. */
#include "shopplan/tool-order.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define ROW_MOST 16

/* Whether a sequence can be found in a row; one tool of the row does all that follows each other
 * with it. */
static bool row_serves(const uint32_t *row, uint32_t length, const ToolSequence *sequence)
{
    uint32_t done = 0;
    for (uint32_t i = 0; i < length; i++)
        while (done < sequence->count && sequence->tools[done] == row[i])
            done++;
    return done == sequence->count;
}

static bool row_serves_all(const uint32_t *row, uint32_t length, const ToolSequence *sequences,
                           uint32_t count)
{
    for (uint32_t s = 0; s < count; s++)
        if (!row_serves(row, length, &sequences[s]))
            return false;
    return true;
}

/* Counts up through every row of `length` tools in the order of their numbers. */
static bool first_row_of(uint32_t length, uint32_t tool_count, const ToolSequence *sequences,
                         uint32_t count, uint32_t *row)
{
    for (uint32_t i = 0; i < length; i++)
        row[i] = 0;
    for (;;) {
        if (row_serves_all(row, length, sequences, count))
            return true;
        uint32_t i = length;
        while (i > 0 && ++row[i - 1] == tool_count)
            row[--i] = 0;
        if (i == 0)
            return false;
    }
}

static void test_against_every_row(void **unused)
{
    uint32_t seed = 11;
    for (int round = 0; round < 300; round++) {
        uint32_t tools[4][4], row[ROW_MOST];
        ToolSequence sequences[4];
        uint32_t count = 1 + (uint32_t)random_between(&seed, 0, 4);
        uint32_t tool_count = 2 + (uint32_t)random_between(&seed, 0, 3);
        for (uint32_t s = 0; s < count; s++) {
            sequences[s] = (ToolSequence){tools[s], (uint32_t)random_between(&seed, 0, 4)};
            for (uint32_t i = 0; i < sequences[s].count; i++)
                tools[s][i] = (uint32_t)random_between(&seed, 0, tool_count);
        }
        uint32_t length = 0;
        while (!first_row_of(length, tool_count, sequences, count, row))
            length++;
        bool shortest = false;
        GArray *found = tool_order(sequences, count, tool_count, &shortest);
        assert_true(shortest);
        assert_int_equal(found->len, length);
        for (uint32_t i = 0; i < length; i++)
            assert_int_equal(g_array_index(found, uint32_t, i), row[i]);
        g_array_unref(found);
    }
}

/* Spot, drill, ream; spot, drill, tap; spot, drill, counterbore: each tool once. */
static void test_usual_holes(void **unused)
{
    static const uint32_t reamed[] = {0, 2, 5}, tapped[] = {0, 1, 6}, bored[] = {0, 2, 4};
    ToolSequence sequences[] = {{reamed, 3}, {tapped, 3}, {bored, 3}};
    bool shortest = false;
    GArray *row = tool_order(sequences, 3, 7, &shortest);
    static const uint32_t expected[] = {0, 1, 2, 4, 5, 6};
    assert_true(shortest);
    assert_int_equal(row->len, 6);
    for (guint i = 0; i < row->len; i++)
        assert_int_equal(g_array_index(row, uint32_t, i), expected[i]);
    g_array_unref(row);
}

static void test_nothing(void **unused)
{
    GArray *row = tool_order(NULL, 0, 0, NULL);
    assert_int_equal(row->len, 0);
    g_array_unref(row);
}

/* Forty kinds of hole that want twelve tools in random orders: it must end, and serve. */
static void test_contrary_orders(void **unused)
{
    uint32_t seed = 5, tools[40][8];
    ToolSequence sequences[40];
    for (uint32_t s = 0; s < 40; s++) {
        sequences[s] = (ToolSequence){tools[s], 8};
        for (uint32_t i = 0; i < 8; i++)
            tools[s][i] = (uint32_t)random_between(&seed, 0, 12);
    }
    bool shortest = true;
    GArray *row = tool_order(sequences, 40, 12, &shortest);
    assert_true(row_serves_all((uint32_t *)(void *)row->data, row->len, sequences, 40));
    g_array_unref(row);
}

/* Far more tools than anybody has, in orders that go up and down. */
static void test_many_tools(void **unused)
{
    enum { COUNT = 30000 };
    uint32_t(*tools)[3] = g_malloc(COUNT * sizeof *tools);
    ToolSequence *sequences = g_new(ToolSequence, COUNT);
    for (uint32_t s = 0; s < COUNT; s++) {
        tools[s][0] = (s * 7919) % COUNT;
        tools[s][1] = s;
        tools[s][2] = (s * 104729) % COUNT;
        sequences[s] = (ToolSequence){tools[s], 3};
    }
    bool shortest = true;
    GArray *row = tool_order(sequences, COUNT, COUNT, &shortest);
    assert_false(shortest);
    /* Each of them is there, and three sweeps are enough. */
    assert_true(row->len >= COUNT && row->len <= 3 * COUNT);
    for (uint32_t s = 0; s < COUNT; s += 1000)
        assert_true(row_serves((uint32_t *)(void *)row->data, row->len, &sequences[s]));
    g_array_unref(row);
    g_free(sequences);
    g_free(tools);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_against_every_row), cmocka_unit_test(test_usual_holes),
        cmocka_unit_test(test_nothing),           cmocka_unit_test(test_contrary_orders),
        cmocka_unit_test(test_many_tools),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
