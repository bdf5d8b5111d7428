/* Stacks of gauge blocks: the set, the fewest blocks against a search that tries every choice. */
#include "trade/gauge-blocks.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static void the_sets_have_their_number(void **state)
{
    Length blocks[96];
    assert_int_equal(gauge_set_blocks(GAUGE_INCH_81, blocks), 81);
    for (size_t i = 1; i < 81; i++)
        assert_true(blocks[i - 1] < blocks[i]);
    assert_int_equal(blocks[0], 1270000);
    assert_int_equal(gauge_set_blocks(GAUGE_METRIC_47, blocks), 47);
    for (size_t i = 1; i < 47; i++)
        assert_true(blocks[i - 1] < blocks[i]);
}

/* Whether `left` can be made of at most `most` blocks from `first` on. */
static bool can_make(const Length *blocks, size_t count, size_t first, Length left, size_t most)
{
    if (left == 0)
        return true;
    if (left < 0 || most == 0)
        return false;
    for (size_t i = first; i < count; i++)
        if (blocks[i] <= left && can_make(blocks, count, i + 1, left - blocks[i], most - 1))
            return true;
    return false;
}

static void check(GaugeSet set, Length height, Length step)
{
    Length blocks[96], sum = 0;
    size_t count = gauge_set_blocks(set, blocks);
    GaugeStack stack;
    assert_true(gauge_stack(height, set, &stack, NULL));
    for (size_t i = 0; i < stack.count; i++) {
        sum += stack.blocks[i];
        if (i)
            assert_true(stack.blocks[i - 1] < stack.blocks[i]);
    }
    assert_int_equal(sum, stack.height);
    assert_int_equal(stack.residual, height - sum);
    if (height > 10 * LENGTH_MM)
        assert_true(llabs(stack.residual) * 2 <= step);
    if (stack.count > 1 && stack.count <= 4)
        assert_false(can_make(blocks, count, 0, stack.height, stack.count - 1));
}

static void stacks_have_the_fewest_blocks(void **state)
{
    unsigned seed = 9;
    for (int i = 0; i < 25; i++) {
        check(GAUGE_INCH_81, (Length)rand_r(&seed) % (4 * LENGTH_INCH), 2540);
        check(GAUGE_METRIC_47, (Length)rand_r(&seed) % (100 * LENGTH_MM), 5000);
    }
}

static void small_heights_get_the_nearest(void **state)
{
    GaugeStack stack;
    assert_true(gauge_stack(0, GAUGE_INCH_81, &stack, NULL));
    assert_int_equal(stack.count, 0);
    assert_true(gauge_stack(1000000, GAUGE_INCH_81, &stack, NULL));
    assert_int_equal(stack.height, 1270000);
    assert_int_equal(stack.residual, -270000);
    assert_true(gauge_stack(100000, GAUGE_INCH_81, &stack, NULL));
    assert_int_equal(stack.height, 0);
    Error error = {0};
    assert_false(gauge_stack(301 * LENGTH_MM, GAUGE_METRIC_47, &stack, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    assert_true(gauge_stack(300 * LENGTH_MM, GAUGE_METRIC_47, &stack, NULL));
    assert_int_equal(stack.residual, 0);
}

static void stacks_are_written(void **state)
{
    GaugeStack stack;
    char text[120];
    assert_true(gauge_stack(10452800, GAUGE_METRIC_47, &stack, NULL));
    gauge_stack_text(&stack, GAUGE_METRIC_47, text, sizeof text);
    assert_non_null(strstr(text, " mm"));
    assert_true(gauge_stack(LENGTH_INCH, GAUGE_INCH_81, &stack, NULL));
    gauge_stack_text(&stack, GAUGE_INCH_81, text, sizeof text);
    assert_string_equal(text, "1.0000 in");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_sets_have_their_number),
        cmocka_unit_test(stacks_have_the_fewest_blocks),
        cmocka_unit_test(small_heights_get_the_nearest),
        cmocka_unit_test(stacks_are_written),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
