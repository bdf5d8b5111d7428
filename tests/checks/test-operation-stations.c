/* The rules about one station at its operations: each with a case that just passes and one that
 * just fails, 1 um apart, by a closed form that stands beside it. */
#include "operation-bench.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* --- one station at its operation ---------------------------------------------------------------
 */

static void set_depth(Pass *pass, double figure)
{
    pass->depth_below = MM(figure);
}

/* Half a millimetre is the limit between a mark and a cut. */
static void test_cuts_plate(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_depth, fails * UM);
        expect_findings(made.plate, "cutter-cuts-plate", LEVEL_CAUTION, fails, UM);
        made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_depth, 0.5 + fails * UM);
        expect_findings(made.plate, "cutter-cuts-plate", LEVEL_STOP, fails, 0.5 + UM);
        /* A nest that leaves 6 all round takes all of the cutter, no deeper than its floor. */
        made = bench(0, NULL);
        put_nest(made.plate, made.station, 6 - fails * UM, 2);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
        expect_findings(made.plate, "cutter-cuts-plate", LEVEL_STOP, fails, 2);
        made = bench(0, NULL);
        put_nest(made.plate, made.station, 6, 2);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_depth, fails * UM);
        expect_findings(made.plate, "cutter-cuts-plate", LEVEL_CAUTION, fails, UM);
    }
}

/* So far down the slope the edge stands cos 10 - down sin 10 over the top, and a cutter that
 * reaches over the break line cuts it when that is less than nothing. */
static void test_cuts_the_top_beside_a_bevel(void **state)
{
    double down = cos(10 * M_PI / 180) / sin(10 * M_PI / 180);
    for (int fails = 0; fails < 2; fails++) {
        Bench made = on_slope(down + (fails ? UM : -1e-6));
        run(&made, PASS_BEVEL, 24, NULL, 0);
        expect_findings(made.plate, "cutter-cuts-plate", LEVEL_CAUTION, fails,
                        UM * sin(10 * M_PI / 180));
    }
}

static void set_flutes(Pass *pass, double figure)
{
    pass->depth_below = MM(0.25);
    pass->flute_length = MM(figure);
}

static void set_gauge(Pass *pass, double figure)
{
    pass->depth_below = MM(0.25);
    pass->gauge_length = MM(figure);
}

/* From the top of 3 to 0.25 below it: 3.25; 1 more below a holder, and what the plate beside a nest
 * stands higher. */
static void test_reach(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_flutes, 3.25 - fails * UM);
        expect_findings(made.plate, "reach", LEVEL_CAUTION, fails, 3.25 - UM);
        made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_gauge, 4.25 - fails * UM);
        expect_findings(made.plate, "reach", LEVEL_STOP, fails, 4.25 - UM);
        made = bench(0, NULL);
        put_nest(made.plate, made.station, 6, 4);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_gauge, 5.25 - fails * UM);
        expect_findings(made.plate, "reach", LEVEL_STOP, fails, 5.25 - UM);
    }
}

static void set_drill(Pass *pass, double figure)
{
    pass->depth_below = MM(figure);
    pass->point = 90 * ANGLE_DEGREE;
}

/* A drill of 5 with a point of 90 degrees ends 2.5 below its full diameter. The hole below it is 6
 * wide: a drill that is 0.5 beside its middle just goes in. */
static void test_exit_room(void **state)
{
    const double holes[] = {10, 10, 5};
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(1, holes);
        put_blind_hole(made.plate, 60, 60, 6, 4 - fails * UM);
        run(&made, PASS_HOLES, 5, set_drill, 1);
        expect_findings(made.plate, "exit-room", LEVEL_CAUTION, fails, 0.5 - UM);
        made = bench(1, holes);
        put_blind_hole(made.plate, 60.5 + fails * UM, 60, 6, 4);
        run(&made, PASS_HOLES, 5, set_drill, 1);
        expect_findings(made.plate, "exit-room", LEVEL_STOP, fails, -3.5);
        /* Right through the plate there is room without end, unless there is a base. */
        made = bench(1, holes);
        put_hole(made.plate, 60, 60, 6);
        run(&made, PASS_HOLES, 5, set_drill, 17.5 + fails * UM);
        expect_findings(made.plate, "exit-room", LEVEL_STOP, 0, 0);
        made = bench(1, holes);
        put_hole(made.plate, 60, 60, 6);
        put_record(made.plate, record_new(plate_new_id(made.plate), RECORD_BASE));
        run(&made, PASS_HOLES, 5, set_drill, 17.5 + fails * UM);
        expect_findings(made.plate, "exit-room", LEVEL_STOP, fails, -UM);
    }
}

static void set_machine(Bench *made, Machine machine)
{
    Record *record = record_copy(plate_find(made->plate, ID_SETTINGS), ID_SETTINGS);
    record->settings.machine = machine;
    change_record(made->plate, record);
}

static void set_long(Pass *pass, double figure)
{
    pass->gauge_length = MM(figure);
}

/* The axis goes 3 outside the bar: from 47 to 113 along X and 47 to 73 along Y. The stock stands at
 * 100, 50. */
static void test_travel(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
        set_machine(&made, (Machine){.travel_x = MM(213 - fails * UM),
                                     .travel_y = MM(200),
                                     .plate_at = {MM(100), MM(50)}});
        expect_findings(made.plate, "travel", LEVEL_STOP, fails, -UM);
        made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
        set_machine(&made, (Machine){.travel_y = MM(200), .plate_at = {0, MM(-47 - fails * UM)}});
        expect_findings(made.plate, "travel", LEVEL_STOP, fails, -UM);
        /* The nose comes down to 20 + 0 + 40 over the underside, of 300 - 240. */
        made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_long, 40 - fails * UM);
        set_machine(&made, (Machine){.travel_z = MM(240), .daylight = MM(300)});
        expect_findings(made.plate, "travel", LEVEL_STOP, fails, -UM);
        /* And must go up to 20 + 3 + 40. */
        made = bench(0, NULL);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, set_long, 40);
        set_machine(&made, (Machine){.daylight = MM(63 - fails * UM)});
        expect_findings(made.plate, "travel", LEVEL_STOP, fails, -UM);
    }
}

/* Two screws through the part so far apart, heads as wide as can't be in the way of themselves. */
static Bench two_screws(double apart, double other_height)
{
    const double holes[] = {10, 10, 4, 10 + apart, 10, 4};
    Bench made = bench(2, holes);
    FeatureId screws[2];
    for (int i = 0; i < 2; i++) {
        screws[i] =
            put_pin(made.plate, made.station, i + 1, 10 + i * apart, 10, FITTING_HOLD_DOWN, 4);
        set_head(&made, screws[i], 7);
    }
    Record *record = record_copy(plate_find(made.plate, screws[1]), screws[1]);
    record->fitting.head_height = MM(other_height);
    change_record(made.plate, record);
    run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
    fit(&made, screws[1]);
    run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
    fit(&made, screws[1]);
    fit(&made, screws[0]);
    Record *first = record_copy(plate_find(made.plate, made.operation), made.operation);
    first->operation.order = 1;
    change_record(made.plate, first);
    return made;
}

/* A driver of 8 beside a taller head of 7: 4 + 3.5 between their axes. */
static void test_access(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        expect_findings(two_screws(7.5 - fails * UM, 6).plate, "access", LEVEL_STOP, fails, -UM);
        /* A head no taller is in nobody's way. */
        expect_findings(two_screws(7.1, 3 + fails * UM).plate, "access", LEVEL_STOP, fails, -UM);
    }
}

/* The taller one can go on last when both go on together. */
static void test_access_in_any_order(void **state)
{
    Bench made = two_screws(7.1, 6);
    for (uint32_t i = 0; i < plate_count(made.plate); i++) {
        const Record *record = plate_at(made.plate, i);
        if (record->kind != RECORD_OPERATION || record->id == made.operation)
            continue;
        take_away(made.plate, record->id);
        break;
    }
    expect_findings(made.plate, "access", LEVEL_STOP, 0, 0);
}

/* --- corners ------------------------------------------------------------------------------------
 */

/* The bar with its lower left corner cut out, 10 x 10, and a fillet of that radius in the corner:
 * an arc through a quarter turn has a sagitta of r (1 - 1 / root 2). */
static void cut_corner_out(Bench *made, double radius)
{
    Record *record = record_copy(plate_find(made->plate, made->part), made->part);
    PartRing *ring = LIST_AT(&record->part.rings, PartRing, 0);
    g_free(ring->nodes.items);
    ring->nodes = (List){0, NULL};
    const double nodes[7][3] = {{60, 0, 0},
                                {60, 20, 0},
                                {0, 20, 0},
                                {0, 10, 0},
                                {10 - radius, 10, -radius * (1 - sqrt(0.5))},
                                {10, 10 - radius, 0},
                                {10, 0, 0}};
    for (int i = 0; i < 7; i++)
        *list_append(&ring->nodes, OutlineNode) =
            (OutlineNode){MM(nodes[i][0]), MM(nodes[i][1]), MM(nodes[i][2])};
    change_record(made->plate, record);
}

/* A cutter of radius R leaves (R - r)(root 2 - 1) in a square corner of radius r: 0.01 is allowed,
 * so r may be 0.0241421 less than R. */
static void test_inside_corner(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(0, NULL);
        cut_corner_out(&made, 3 - 0.01 / (sqrt(2) - 1) + 1e-5 - fails * UM);
        run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
        FindingList findings = findings_of(made.plate);
        assert_int_equal(count_of(&findings, "inside-corner", NULL), fails);
        finding_list_clear(&findings);
        plate_free(made.plate);
    }
    /* A smaller cutter afterwards finishes it. */
    Bench made = bench(0, NULL);
    cut_corner_out(&made, 2);
    run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
    run(&made, PASS_OUTLINE_OUTSIDE, 4, NULL, 0);
    expect_findings(made.plate, "inside-corner", LEVEL_CAUTION, 0, 0);
}

/* The bar with a square blank 2 larger all round. */
static Bench with_blank(void)
{
    Bench made = bench(0, NULL);
    Record *record = record_copy(plate_find(made.plate, made.part), made.part);
    record->part.blank = (Blank){{MM(-2), MM(-2)}, MM(64), MM(24), MM(3)};
    change_record(made.plate, record);
    return made;
}

/* A nest for the blank, milled with a cutter of 6. */
static void mill_nest(Bench *made, double clearance)
{
    run(made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
    Record *record = record_copy(plate_find(made->plate, made->operation), made->operation);
    record->operation.kind = OPERATION_MAKING;
    change_record(made->plate, record);
    FeatureId nest = put_nest(made->plate, made->station, clearance, 1);
    record = record_copy(plate_find(made->plate, nest), nest);
    record->recess.kind = RECESS_BLANK_NEST;
    record->recess.operation = made->operation;
    change_record(made->plate, record);
}

/* The same as a pocket with corners of 3. */
static void mill_pocket(Bench *made, double clearance)
{
    Record *record = record_new(plate_new_id(made->plate), RECORD_RECESS);
    record->recess = (Recess){.kind = RECESS_RECTANGLE,
                              .face = ID_TOP,
                              .station = made->station,
                              .at = {MM(30), MM(10)},
                              .length = MM(64 + 2 * clearance),
                              .width = MM(24 + 2 * clearance),
                              .corner_radius = MM(3),
                              .depth = MM(1)};
    put_record(made->plate, record);
}

static void expect_corners(Bench *made, int count)
{
    FindingList findings = findings_of(made->plate);
    assert_int_equal(count_of(&findings, "inside-corner", NULL), count);
    finding_list_clear(&findings);
    plate_free(made->plate);
}

/* A square corner in a pocket's round one of radius R, both sides c from it, is free of it from
 * c = R (1 - 1 / root 2) on: 0.878680 for a cutter of 6. */
static void test_square_blank_in_a_nest(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        double clearance = 3 * (1 - sqrt(0.5)) + 1e-6 - fails * UM;
        Bench made = with_blank();
        mill_nest(&made, clearance);
        expect_corners(&made, fails);
        made = with_blank();
        mill_pocket(&made, clearance);
        expect_corners(&made, fails);
    }
}

/* With a clearance of 0.5 the round comes out of the blank's side where (R - c) - x is the root of
 * R2 - (R - c)2: x = 2.5 - root 2.75 = 0.841688 from the tip. A hole about the tip that is so wide
 * takes the corner, one that is less deep or stands at three corners alone does not. */
static void test_relieved_corners(void **state)
{
    double radius = 2.5 - sqrt(2.75);
    for (int which = 0; which < 2; which++) {
        for (int fails = 0; fails < 4; fails++) {
            Bench made = with_blank();
            if (which)
                mill_pocket(&made, 0.5);
            else
                mill_nest(&made, 0.5);
            for (int i = 0; i < (fails == 2 ? 3 : 4); i++)
                put_blind_hole(made.plate, i % 2 ? 112 : 48, i / 2 ? 72 : 48,
                               2 * (radius + (fails == 1 ? -UM : 1e-6)), fails == 3 ? 0.999 : 1);
            expect_corners(&made, fails > 0);
        }
    }
}

/* --- what bears a part --------------------------------------------------------------------------
 */

static FeatureId put_pocket(Bench *made, double x, double y, double length, double width)
{
    Record *record = record_new(plate_new_id(made->plate), RECORD_RECESS);
    record->recess = (Recess){.kind = RECESS_RECTANGLE,
                              .face = ID_TOP,
                              .at = {MM(x), MM(y)},
                              .length = MM(length),
                              .width = MM(width),
                              .depth = MM(2)};
    return put_record(made->plate, record);
}

/* Pockets of 15 x 10 under the bar, straight all round, the second half over its end: 150 + 5 x 10
 * less what the two share, which is looked at once. */
static void test_unsupported(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(0, NULL);
        put_pocket(&made, 80, 60, 15 + fails * UM, 10);
        expect_findings(made.plate, "unsupported", LEVEL_CAUTION, fails, 150 + 10 * UM);
        made = bench(0, NULL);
        put_pocket(&made, 80, 60, 10, 10);
        put_pocket(&made, 84, 60, 10, 10);
        put_pocket(&made, 110, 60, 2 + fails * 2 * UM, 10);
        expect_findings(made.plate, "unsupported", LEVEL_CAUTION, fails, 150 + 10 * UM);
    }
}

/* A round hole of radius 8 under the bar less the part's own hole of radius 3 over it. */
static void test_unsupported_round(void **state)
{
    const double holes[] = {30, 10, 6};
    Bench made = bench(1, holes);
    put_hole(made.plate, 80, 60, 16);
    FindingList findings = findings_of(made.plate);
    const Finding *finding = NULL;
    assert_int_equal(count_of(&findings, "unsupported", &finding), 1);
    assert_true(fabs(finding->value - M_PI * (64 - 9)) < 1e-6);
    assert_true(point_distance(finding->at, (Point){80, 60}) < 8);
    finding_list_clear(&findings);
    plate_free(made.plate);
}

/* 150 of the part is let pass; of its bevel, 11.34 high, 10. */
static void test_unsupported_bevel(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = on_slope(0);
        FeatureId pocket = put_pocket(&made, 0, 0, 5 + fails * UM, 2);
        put_on_face(made.plate, pocket, plate_find(made.plate, made.station)->station.face, -100,
                    -5);
        expect_findings(made.plate, "unsupported", LEVEL_CAUTION, fails, 10 + 2 * UM);
    }
}

/* --- holding ------------------------------------------------------------------------------------
 */

/* Of two screws through the part the profile's operation fits both or one, and the bevel's after it
 * as many. */
static void test_held_by_what_is_fitted(void **state)
{
    const double holes[] = {10, 10, 4, 50, 10, 4};
    for (int at_profile = 1; at_profile <= 2; at_profile++) {
        for (int after = 1; after <= 2; after++) {
            Bench made = bench(2, holes);
            FeatureId first = put_pin(made.plate, made.station, 1, 10, 10, FITTING_HOLD_DOWN, 4);
            FeatureId second = put_pin(made.plate, made.station, 2, 50, 10, FITTING_HOLD_DOWN, 4);
            run(&made, PASS_OUTLINE_OUTSIDE, 6, NULL, 0);
            fit(&made, first);
            if (at_profile == 2)
                fit(&made, second);
            run(&made, PASS_HOLES, 4, NULL, 0);
            fit(&made, first);
            if (after == 2)
                fit(&made, second);
            expect_findings(made.plate, "comes-loose", LEVEL_STOP, 4 - at_profile - after, 1);
        }
    }
    /* A blank that is only drilled is still whole; when nothing else is run, all that is there
     * counts once it will be cut out. */
    Bench made = bench(2, holes);
    put_pin(made.plate, made.station, 1, 10, 10, FITTING_HOLD_DOWN, 4);
    put_pin(made.plate, made.station, 2, 50, 10, FITTING_HOLD_DOWN, 4);
    run(&made, PASS_HOLES, 4, NULL, 0);
    expect_findings(made.plate, "comes-loose", LEVEL_STOP, 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_held_by_what_is_fitted),
        cmocka_unit_test(test_cuts_plate),
        cmocka_unit_test(test_cuts_the_top_beside_a_bevel),
        cmocka_unit_test(test_reach),
        cmocka_unit_test(test_exit_room),
        cmocka_unit_test(test_travel),
        cmocka_unit_test(test_access),
        cmocka_unit_test(test_access_in_any_order),
        cmocka_unit_test(test_inside_corner),
        cmocka_unit_test(test_square_blank_in_a_nest),
        cmocka_unit_test(test_relieved_corners),
        cmocka_unit_test(test_unsupported),
        cmocka_unit_test(test_unsupported_round),
        cmocka_unit_test(test_unsupported_bevel),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
