/* A batch against a simulation that goes minute by hundredth of a minute, written apart from it. */
#include "trade/batch.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* Everything in whole ticks. */
typedef struct Shop {
    int load, swap, plates, operations, cut[BATCH_OPERATIONS_MOST];
} Shop;

enum PlateState { EMPTY, LOADED, ON_MACHINE };

typedef struct Counts {
    double plates_through, spindle, maker; /* in the counted time */
} Counts;

/* Each tick: what is done is finished, then the maker picks up work, then everybody works. */
static Counts simulated(const Shop *shop, long ticks, long from)
{
    enum PlateState plates[BATCH_PLATES_MOST] = {EMPTY};
    int operation[BATCH_PLATES_MOST] = {0}, load_left[BATCH_PLATES_MOST];
    int mounted = -1, next_load = 0, next_mount = 0, swap_left = 0, spindle_left = 0;
    int swapping = -1;
    Counts counts = {0};
    for (int i = 0; i < BATCH_PLATES_MOST; i++)
        load_left[i] = shop->load;
    for (long tick = 0; tick < ticks; tick++) {
        if (swapping >= 0 && swap_left == 0) {
            if (mounted >= 0 && mounted != swapping)
                plates[mounted] = EMPTY;
            mounted = swapping;
            plates[mounted] = ON_MACHINE;
            spindle_left = shop->cut[operation[mounted]];
            operation[mounted] = (operation[mounted] + 1) % shop->operations;
            swapping = -1;
        }
        if (swapping < 0 && plates[next_mount] == LOADED && spindle_left == 0) {
            swapping = next_mount;
            next_mount = (next_mount + 1) % shop->plates;
            swap_left = shop->swap;
        }
        bool off = plates[next_load] == EMPTY ||
                   (shop->plates == 1 && plates[0] == ON_MACHINE && spindle_left == 0);
        bool loads = swapping < 0 && off;
        bool counted = tick >= from;
        counts.maker += counted && (swapping >= 0 || loads);
        counts.spindle += counted && spindle_left > 0;
        counts.plates_through += counted && spindle_left == 1 && operation[mounted] == 0;
        swap_left -= swapping >= 0;
        spindle_left -= spindle_left > 0;
        if (loads && --load_left[next_load] == 0) {
            plates[next_load] = LOADED;
            load_left[next_load] = shop->load;
            next_load = (next_load + 1) % shop->plates;
        }
    }
    return counts;
}

#define TICKS_A_MINUTE 100.0

static Batch batch_of(const Shop *shop)
{
    Batch batch = {.load = shop->load / TICKS_A_MINUTE,
                   .swap = shop->swap / TICKS_A_MINUTE,
                   .operation_count = (size_t)shop->operations,
                   .plates = shop->plates,
                   .parts = 3};
    for (int i = 0; i < shop->operations; i++)
        batch.cut[i] = shop->cut[i] / TICKS_A_MINUTE;
    return batch;
}

static void batches_agree_with_the_simulation(void **state)
{
    unsigned seed = 3;
    for (int i = 0; i < 120; i++) {
        Shop shop = {.load = 1 + rand_r(&seed) % 60,
                     .swap = 1 + rand_r(&seed) % 15,
                     .plates = 1 + rand_r(&seed) % 4,
                     .operations = 1 + rand_r(&seed) % 3};
        for (int k = 0; k < shop.operations; k++)
            shop.cut[k] = 1 + rand_r(&seed) % 90;
        Batch batch = batch_of(&shop);
        BatchResult result;
        assert_true(batch_work_out(&batch, &result, NULL));
        long ticks = 240000, from = 40000;
        Counts counts = simulated(&shop, ticks, from);
        double hours = (double)(ticks - from) / TICKS_A_MINUTE / 60;
        double parts = counts.plates_through * 3 / hours;
        double spindle = counts.spindle / (double)(ticks - from);
        double maker = counts.maker / (double)(ticks - from);
        if (fabs(parts - result.parts_an_hour) > 0.01 * parts ||
            fabs(spindle - result.spindle_busy) > 0.005 || fabs(maker - result.maker_busy) > 0.005)
            fail_msg("load %d swap %d plates %d ops %d: %.3f/h %.3f %.3f, simulated %.3f/h %.3f "
                     "%.3f",
                     shop.load, shop.swap, shop.plates, shop.operations, result.parts_an_hour,
                     result.spindle_busy, result.maker_busy, parts, spindle, maker);
    }
}

/* One plate: load 4, swap 1, cut 10: 15 minutes a plate, 4 plates an hour. Two plates: the machine
 * is never without one: 11 minutes. A load of 20: the maker needs 21. */
static void simple_batches_are_known(void **state)
{
    Batch batch = {
        .load = 4, .swap = 1, .cut = {10}, .operation_count = 1, .plates = 1, .parts = 3};
    BatchResult result;
    assert_true(batch_work_out(&batch, &result, NULL));
    assert_true(fabs(result.parts_an_hour - 12) < 1e-9);
    assert_true(fabs(result.spindle_busy - 10.0 / 15) < 1e-9);
    assert_int_equal(result.plates_needed, 2);
    assert_string_equal(result.waits, "both wait for plates");
    batch.plates = 2;
    assert_true(batch_work_out(&batch, &result, NULL));
    assert_true(fabs(result.parts_an_hour - 180.0 / 11) < 1e-9);
    assert_string_equal(result.waits, "the maker waits for the spindle");
    /* Cuts of 6 and 3 against loads of 4: two plates leave waits, more take them up: 10 minutes for
     * 6 + 3 and two swaps. */
    Batch uneven = {
        .load = 4, .swap = 0.5, .cut = {6, 3}, .operation_count = 2, .plates = 6, .parts = 3};
    assert_true(batch_work_out(&uneven, &result, NULL));
    assert_true(fabs(result.parts_an_hour - 18) < 1e-6);
    assert_true(result.plates_needed > 2);
    batch.load = 20;
    assert_true(batch_work_out(&batch, &result, NULL));
    assert_true(fabs(result.parts_an_hour - 180.0 / 21) < 1e-9);
    assert_string_equal(result.waits, "the spindle waits for the maker");
}

static void bars_do_not_overlap(void **state)
{
    Batch batch = {
        .load = 4, .swap = 1, .cut = {3, 8}, .operation_count = 2, .plates = 3, .parts = 1};
    BatchBar bars[400];
    size_t count = batch_bars(&batch, 480, bars, 400);
    assert_true(count > 100 && count < 400);
    double maker = 0, spindle = 0;
    for (size_t i = 0; i < count; i++) {
        assert_true(bars[i].end <= 480 && bars[i].end >= bars[i].start);
        if (i)
            assert_true(bars[i].start >= bars[i - 1].start);
        if (bars[i].work != BATCH_CUT) {
            assert_true(bars[i].start >= maker);
            maker = bars[i].end;
        }
        if (bars[i].work != BATCH_LOAD) {
            assert_true(bars[i].start >= spindle);
            spindle = bars[i].end;
        }
    }
    assert_int_equal(batch_bars(&batch, 480, bars, 5), 5);
}

static void what_can_not_be_is_refused(void **state)
{
    Batch batch = {.load = 4, .swap = 1, .cut = {0}, .operation_count = 1, .plates = 1, .parts = 1};
    BatchResult result;
    Error error = {0};
    assert_false(batch_work_out(&batch, &result, &error));
    batch.cut[0] = 1;
    batch.plates = 13;
    assert_false(batch_work_out(&batch, &result, &error));
    assert_non_null(strstr(error.message, "12 plates"));
    batch.plates = 1;
    batch.load = NAN;
    assert_false(batch_work_out(&batch, &result, &error));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(batches_agree_with_the_simulation),
        cmocka_unit_test(simple_batches_are_known),
        cmocka_unit_test(bars_do_not_overlap),
        cmocka_unit_test(what_can_not_be_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
