/* The rules about what cutters go through: each with a case that just passes and one that just
 * fails, 1 um apart, by a closed form that stands beside it. */
#include "operation-bench.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* The band round an outline is as wide as its cutter: 6 from the outline. */
static void test_round_the_outline(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
        fit(&made, clamp(&made, 6.5 - fails * UM, 2));
        expect_findings(made.plate, "cutter-meets-hardware", LEVEL_CAUTION, fails, 0.5 - UM);
        made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
        fit(&made, clamp(&made, 6 - fails * UM, 2));
        expect_findings(made.plate, "cutter-meets-hardware", LEVEL_STOP, fails, -UM);
        /* A head inside, 10 from the outline's side, where the band begins. */
        const double holes[] = {30, 10, 5};
        made = bench(1, holes);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
        FeatureId screw = put_pin(made.plate, made.station, 1, 30, 10, FITTING_HOLD_DOWN, 4);
        set_head(&made, screw, 2 * (9.5 + fails * UM));
        fit(&made, screw);
        expect_findings(made.plate, "cutter-meets-hardware", LEVEL_CAUTION, fails, 0.5 - UM);
    }
    /* Off the plate at that operation, it is in nobody's way. */
    Bench made = bench(0, NULL);
    run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
    clamp(&made, 1, 2);
    expect_findings(made.plate, "cutter-meets-hardware", LEVEL_STOP, 0, 0);
}

static void set_stock_left(Pass *pass, double figure)
{
    pass->stock_left = MM(figure);
}

static void test_stock_left_moves_the_band(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_stock_left, 0.2);
        fit(&made, clamp(&made, 6.2 - fails * UM, 2));
        expect_findings(made.plate, "cutter-meets-hardware", LEVEL_STOP, fails, -UM);
    }
}

/* A drill of 5 at 10, 10 and a head on a hole 12 further along: 12 - 2.5 - 9 = 0.5. */
static void test_down_a_hole(void **state)
{
    const double holes[] = {10, 10, 5, 22, 10, 4};
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(2, holes);
        run(&made, PASS_HOLES, 5, NULL, 0);
        FeatureId screw = put_pin(made.plate, made.station, 2, 22, 10, FITTING_HOLD_DOWN, 4);
        set_head(&made, screw, 2 * (9 + fails * UM));
        fit(&made, screw);
        expect_findings(made.plate, "cutter-meets-hardware", LEVEL_CAUTION, fails, 0.5 - UM);
    }
    /* A drill goes down no hole that is smaller than it. */
    Bench made = bench(2, holes);
    run(&made, PASS_HOLES, 5, NULL, 0);
    FeatureId pin = put_pin(made.plate, made.station, 2, 22, 10, FITTING_DOWEL, 4);
    fit(&made, pin);
    expect_findings(made.plate, "cutter-meets-hardware", LEVEL_STOP, 0, 0);
}

/* Round the inside of an opening 20 x 10 with a cutter of 4: its band is 4 wide, so that 1 is left
 * from its inner side to the middle line; a pin of 0.5 radius stands 0.5 from it. */
static void test_round_an_opening(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(0, NULL);
        Record *record = record_copy(plate_find(made.plate, made.part), made.part);
        const double corners[4][2] = {{20, 5}, {20, 15}, {40, 15}, {40, 5}};
        PartRing *ring = list_append(&record->part.rings, PartRing);
        for (int i = 0; i < 4; i++)
            *list_append(&ring->nodes, OutlineNode) =
                (OutlineNode){MM(corners[i][0]), MM(corners[i][1]), 0};
        change_record(made.plate, record);
        run(&made, PASS_OUTLINE_INSIDE, 4, NULL, 0);
        FeatureId pin =
            put_pin(made.plate, made.station, 0, 30, 10, FITTING_DOWEL, 1 + fails * 2 * UM);
        Record *fitting = record_copy(plate_find(made.plate, pin), pin);
        fitting->fitting.length = MM(3);
        change_record(made.plate, fitting);
        fit(&made, pin);
        expect_findings(made.plate, "cutter-meets-hardware", LEVEL_CAUTION, fails, 0.5 - UM);
    }
}

/* A bevel of 10 degrees from 3 to 1 thick at the break line, cut level: the edge's line stands sin
 * 10 before the break line, the bevel's upper line (3 - 1) / sin 10 before that. A cutter of 12
 * that touches that line reaches 12 beyond it. */
static void test_along_a_bevel(void **state)
{
    double sine = sin(10 * M_PI / 180);
    double furthest = 50 - sine - 2 / sine + 12;
    for (int fails = 0; fails < 2; fails++) {
        Bench made = on_slope(0);
        run(&made, PASS_BEVEL, 12, NULL, 0);
        Record *record = record_new(plate_new_id(made.plate), RECORD_KEEP_CLEAR);
        record->keep_clear = (KeepClear){.face = ID_TOP, .length = MM(10), .width = MM(6)};
        record->keep_clear.height = MM(5);
        record->keep_clear.at = (Place){MM(100), MM(furthest + 0.5 + 3 + 1e-6 - fails * UM)};
        put_record(made.plate, record);
        expect_findings(made.plate, "cutter-meets-hardware", LEVEL_CAUTION, fails, 0.5 - UM + 1e-6);
    }
}

static void set_holder(Pass *pass, double figure)
{
    pass->holder_diameter = MM(30);
    pass->gauge_length = MM(figure);
}

/* The holder is 30 wide about a way that is 3 from the outline, and begins 10 above the part's
 * underside. */
static void test_holder(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_holder, 10);
        fit(&made, clamp(&made, 8, 9 + fails * UM));
        expect_findings(made.plate, "holder-meets-clamp", LEVEL_CAUTION, fails, 1 - UM);
        made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_holder, 10);
        fit(&made, clamp(&made, 8, 10 + fails * UM));
        expect_findings(made.plate, "holder-meets-clamp", LEVEL_STOP, fails, -UM);
        made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_holder, 10);
        fit(&made, clamp(&made, 18 + 1 - fails * UM, 15));
        expect_findings(made.plate, "holder-meets-clamp", LEVEL_CAUTION, fails, 1 - UM);
        /* In a nest 2 deep all of it comes 2 lower, the clamp on the face does not. */
        made = bench(0, NULL);
        put_nest(made.plate, made.station, 0.2, 2);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_holder, 10);
        fit(&made, clamp(&made, 8, 7 + fails * UM));
        expect_findings(made.plate, "holder-meets-clamp", LEVEL_CAUTION, fails, 1 - UM);
    }
    /* A holder that nobody has described meets nothing. */
    Bench made = bench(0, NULL);
    run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
    fit(&made, clamp(&made, 8, 200));
    expect_findings(made.plate, "holder-meets-clamp", LEVEL_STOP, 0, 0);
}

static Bench two_stations(double apart, double blank)
{
    Bench made = bench(0, NULL);
    if (blank > 0) {
        Record *record = record_copy(plate_find(made.plate, made.part), made.part);
        record->part.blank =
            (Blank){{MM(-blank), MM(-blank)}, MM(60 + 2 * blank), MM(20 + 2 * blank), MM(3)};
        change_record(made.plate, record);
    }
    put_station(made.plate, made.part, 50, 50 + 20 + apart);
    run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
    return made;
}

/* Each of the two is near the other's cutter. */
static void test_neighbour(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        expect_findings(two_stations(6.5 - fails * UM, 0).plate, "cutter-meets-neighbour",
                        LEVEL_CAUTION, 2 * fails, 0.5 - UM);
        expect_findings(two_stations(6 - fails * UM, 0).plate, "cutter-meets-neighbour", LEVEL_STOP,
                        2 * fails, -UM);
        /* A blank 2 wider all round is met 2 earlier. */
        expect_findings(two_stations(8 - fails * UM, 2).plate, "cutter-meets-neighbour",
                        LEVEL_CAUTION, 2 * fails, -UM);
    }
}

static void test_operation_is_said(void **state)
{
    const Finding *finding = NULL;
    Bench made = bench(0, NULL);
    run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
    FeatureId hit = clamp(&made, 1, 2);
    fit(&made, hit);
    FindingList findings = findings_of(made.plate);
    assert_int_equal(count_of(&findings, "cutter-meets-hardware", &finding), 1);
    assert_int_equal(finding->operation, made.operation);
    assert_int_equal(finding->features[0], made.station);
    assert_int_equal(finding->features[1], hit);
    finding_list_clear(&findings);
    plate_free(made.plate);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_round_the_outline), cmocka_unit_test(test_stock_left_moves_the_band),
        cmocka_unit_test(test_down_a_hole),       cmocka_unit_test(test_round_an_opening),
        cmocka_unit_test(test_along_a_bevel),     cmocka_unit_test(test_holder),
        cmocka_unit_test(test_neighbour),         cmocka_unit_test(test_operation_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
