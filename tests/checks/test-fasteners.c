/* The rules about screws and pins in their holes: each with a case that just passes and one that
 * just fails, 1 um apart, by the standards' tables or a closed form, which stand beside them. The
 * plate is 100 x 80 x 20 mm of aluminium. */
#include "checks/fastener.h"
#include "support/plates.h"
#include "trade/drill.h"
#include "trade/shoulder-screw.h"
#include "trade/thread.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define UM 0.001
#define INCH 25.4

typedef struct Bench {
    Plate *plate;
    FeatureId part, station, hole, fitting;
} Bench;

static void set_thickness(Bench *bench, double thickness, double tolerance)
{
    Record *record = record_copy(plate_find(bench->plate, bench->part), bench->part);
    record->part.thickness = MM(thickness);
    record->part.thickness_tolerance = MM(tolerance);
    change_record(bench->plate, record);
}

static void set_steel(Bench *bench)
{
    Record *record = record_copy(plate_find(bench->plate, ID_SETTINGS), ID_SETTINGS);
    record->settings.stock.metal = METAL_STEEL;
    change_record(bench->plate, record);
}

/* A bar 3 mm thick with a fitting through its hole, which stands in a hole of the plate drilled
 * `drill` right through. */
static Bench bench(int kind, const char *size, double diameter, double drill)
{
    const double holes[] = {20, 10, 8.1};
    Bench bench = {.plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM)};
    bench.part = put_part(bench.plate, 40, 20, 3, 1, holes);
    bench.station = put_station(bench.plate, bench.part, 30, 30);
    bench.fitting = put_pin(bench.plate, bench.station, 1, 20, 10, kind, diameter);
    bench.hole = plate_find(bench.plate, bench.fitting)->fitting.hole;
    Record *hole = record_copy(plate_find(bench.plate, bench.hole), bench.hole);
    LIST_AT(&hole->hole.steps, Step, 0)->diameter = MM(drill);
    change_record(bench.plate, hole);
    set_size(bench.plate, bench.fitting, size, 3, 0, 0);
    return bench;
}

static Bench on_8mm(double tap_depth)
{
    Bench made = bench(FITTING_SHOULDER_SCREW, "shoulder screw 8mm", 8, 5);
    add_step(made.plate, made.hole, STEP_TAP, 6, tap_depth, "M6x1");
    return made;
}

static void test_shoulder_length(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        /* 3 mm less 0.05 of tolerance, and 0.1 of play. */
        Bench made = on_8mm(15);
        set_thickness(&made, 3, 0.05);
        set_size(made.plate, made.fitting, "shoulder screw 8mm", 3.05 + fails * UM, 0, 0);
        expect_findings(made.plate, "shoulder-length", LEVEL_CAUTION, fails, 0.1 + UM);
        /* 3 mm and 0.05 more, and 0.5 short. */
        made = on_8mm(15);
        set_thickness(&made, 3, 0.05);
        set_size(made.plate, made.fitting, "shoulder screw 8mm", 2.55 - fails * UM, 0, 0);
        expect_findings(made.plate, "shoulder-length", LEVEL_CAUTION, fails, 0.5 + UM);
    }
}

static void test_shoulder_bearing(void **state)
{
    /* Shoulder screw 3/16 in: the neck under the head is 0.040 in (ASME B18.3), 1.016 mm. A part of
     * 2.032 mm bears over half of its thickness; at 1 um less the other half is short by half that.
     */
    for (int fails = 0; fails < 2; fails++) {
        double thickness = 2.032 - fails * UM;
        Bench made = bench(FITTING_SHOULDER_SCREW, "shoulder screw 3/16", 4.7625, 3.4544);
        set_thickness(&made, thickness, 0);
        set_size(made.plate, made.fitting, "shoulder screw 3/16", thickness, 0, 0);
        expect_findings(made.plate, "shoulder-bearing", LEVEL_CAUTION, fails, 1.016 - UM);
    }
    /* A part as thin as the neck has no shoulder at all. */
    for (int fails = 0; fails < 2; fails++) {
        double thickness = 1.016 + (1 - fails) * UM;
        Bench made = bench(FITTING_SHOULDER_SCREW, "shoulder screw 3/16", 4.7625, 3.4544);
        set_thickness(&made, thickness, 0);
        set_size(made.plate, made.fitting, "shoulder screw 3/16", thickness, 0, 0);
        expect_findings(made.plate, "shoulder-bearing", LEVEL_STOP, fails, 0);
    }
    /* What the tables don't know is not guessed at. */
    Bench made = bench(FITTING_SHOULDER_SCREW, "stripper bolt 3/16", 4.7625, 3.4544);
    set_thickness(&made, 0.5, 0);
    set_size(made.plate, made.fitting, "stripper bolt 3/16", 0.5, 0, 0);
    expect_findings(made.plate, "shoulder-bearing", LEVEL_STOP, 0, 0);
}

/* The 8 mm shoulder is 7.951 at least (f9 by ISO 7379): a chamfer of 7.751 leaves 0.1 a side. */
static void test_shoulder_seat(void **state)
{
    const double chamfers[] = {7.751, 7.951};
    const FindingLevel levels[] = {LEVEL_CAUTION, LEVEL_STOP};
    for (int i = 0; i < 2; i++) {
        for (int fails = 0; fails < 2; fails++) {
            Bench made = on_8mm(15);
            /* Flat, so that its depth does not matter. */
            add_step(made.plate, made.hole, STEP_COUNTERSINK, chamfers[i] + fails * 2 * UM, 0.5,
                     NULL);
            expect_findings(made.plate, "shoulder-seat", levels[i], fails, (i == 0 ? 0.1 : 0) - UM);
        }
    }
    /* A chamfer of 90 degrees, 8 wide at the face, is 7 wide half a millimetre down, where a nest's
     * floor is: 0.4755 a side. */
    Bench made = on_8mm(15);
    add_step(made.plate, made.hole, STEP_COUNTERSINK, 8, 4, NULL);
    Record *hole = record_copy(plate_find(made.plate, made.hole), made.hole);
    LIST_AT(&hole->hole.steps, Step, 2)->point = 90 * ANGLE_DEGREE;
    change_record(made.plate, hole);
    put_nest(made.plate, made.station, 0.5, 0.5);
    change_limit(made.plate, "shoulder-seat", "ring", 0.5);
    expect_findings(made.plate, "shoulder-seat", LEVEL_CAUTION, 1, 0.4755);
    /* Right through a hole that the shoulder goes into. */
    made = bench(FITTING_SHOULDER_SCREW, "shoulder screw 8mm", 8, 8.1);
    expect_findings(made.plate, "shoulder-seat", LEVEL_STOP, 1, 0);
}

/* A coil insert for 8-32 is tapped 0.2046 in (ASME B18.29.1, from memory), and the shoulder of a
 * 3/16 in screw is 0.183 in: it has no seat. Neither has one of 1/4 in much of it: 0.246 against
 * 0.2441 in. In a plain thread both stand well. */
static void test_insert_below_shoulder(void **state)
{
    Bench made = bench(FITTING_SHOULDER_SCREW, "shoulder screw 3/16", 4.7625, 0.173 * INCH);
    add_step(made.plate, made.hole, STEP_TAP, 0.2046 * INCH, 15, "coil 8-32");
    expect_findings(made.plate, "shoulder-seat", LEVEL_STOP, 1, (0.183 - 0.2046) / 2 * INCH);
    made = bench(FITTING_SHOULDER_SCREW, "shoulder screw 1/4", 6.35, 13 / 64.0 * INCH);
    add_step(made.plate, made.hole, STEP_TAP, 0.2441 * INCH, 15, "coil 10-24");
    expect_findings(made.plate, "shoulder-seat", LEVEL_CAUTION, 1, (0.246 - 0.2441) / 2 * INCH);
    made = bench(FITTING_SHOULDER_SCREW, "shoulder screw 3/16", 4.7625, 0.136 * INCH);
    add_step(made.plate, made.hole, STEP_TAP, 0.164 * INCH, 15, "8-32");
    expect_findings(made.plate, "shoulder-seat", LEVEL_CAUTION, 0, 0);
}

/* The thread of an 8 mm shoulder screw is 11.25 mm long (ISO 7379, from memory), and lies deeper
 * where the part lies in a nest. */
static void test_screw_bottoms(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = on_8mm(11.25 - fails * UM);
        expect_findings(made.plate, "shoulder-seat", LEVEL_STOP, fails, 11.25 - UM);
        made = on_8mm(12.75 - fails * UM);
        put_nest(made.plate, made.station, 0.5, 1.5);
        expect_findings(made.plate, "shoulder-seat", LEVEL_STOP, fails, 12.75 - UM);
    }
}

/* M6-6H and 6g: pitch diameters 5.500 at most and 5.212 at least (ISO 965-1, 5.350 + 0.150 and
 * 5.350 - 0.026 - 0.112): 0.288 of play, 0.144 a side. A bore takes it over. */
static void test_shoulder_guided(void **state)
{
    expect_findings(on_8mm(15).plate, "shoulder-guided", LEVEL_NOTE, 1, 0.144);
    for (int fails = 0; fails < 2; fails++) {
        /* 7.951 and twice 0.1. */
        Bench made = on_8mm(15);
        add_step(made.plate, made.hole, STEP_BORE, 8.151 + fails * 2 * UM, 2, NULL);
        expect_findings(made.plate, "shoulder-guided", LEVEL_NOTE, fails, 0.1 + UM);
    }
    /* A bore no deeper than the nest guides nothing. */
    Bench made = on_8mm(15);
    add_step(made.plate, made.hole, STEP_BORE, 8, 2, NULL);
    put_nest(made.plate, made.station, 0.5, 2);
    expect_findings(made.plate, "shoulder-guided", LEVEL_NOTE, 1, 0.144);
}

/* Common practice: 1.5 diameters in aluminium, 1 in steel, from what the part lies on. */
static void test_hold_down(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(FITTING_HOLD_DOWN, "socket head M6", 6, 5);
        add_step(made.plate, made.hole, STEP_TAP, 6, 9 - fails * UM, "M6");
        expect_findings(made.plate, "thread-engagement", LEVEL_CAUTION, fails, 9 - UM);
        made = bench(FITTING_HOLD_DOWN, "socket head M6", 6, 5);
        set_steel(&made);
        add_step(made.plate, made.hole, STEP_TAP, 6, 6 - fails * UM, "M6");
        expect_findings(made.plate, "thread-engagement", LEVEL_CAUTION, fails, 6 - UM);
        made = bench(FITTING_HOLD_DOWN, "socket head M6", 6, 5);
        add_step(made.plate, made.hole, STEP_TAP, 6, 11 - fails * UM, "M6");
        put_nest(made.plate, made.station, 0.5, 2);
        expect_findings(made.plate, "thread-engagement", LEVEL_CAUTION, fails, 9 - UM);
        made = bench(FITTING_HOLD_DOWN, "socket head M6", 6, 5);
        add_step(made.plate, made.hole, STEP_TAP, 6, 11 - fails * UM, "M6");
        add_step(made.plate, made.hole, STEP_COUNTERBORE, 11, 2, NULL);
        expect_findings(made.plate, "thread-engagement", LEVEL_CAUTION, fails, 9 - UM);
    }
}

static void test_wrong_thread(void **state)
{
    Bench made = bench(FITTING_HOLD_DOWN, "socket head M6", 6, 6);
    expect_findings(made.plate, "thread-engagement", LEVEL_STOP, 1, 0);
    made = bench(FITTING_HOLD_DOWN, "socket head M6", 6, 6.8);
    add_step(made.plate, made.hole, STEP_TAP, 8, 15, "M8");
    expect_findings(made.plate, "thread-engagement", LEVEL_STOP, 1, 0);
    made = bench(FITTING_SHOULDER_SCREW, "shoulder screw 1/4", 6.35, 4);
    add_step(made.plate, made.hole, STEP_TAP, 4.826, 15, "10-32");
    expect_findings(made.plate, "thread-engagement", LEVEL_STOP, 1, 0);
    made = bench(FITTING_SHOULDER_SCREW, "shoulder screw 1/4", 6.35, 3.8);
    add_step(made.plate, made.hole, STEP_TAP, 4.826, 15, "10-24");
    expect_findings(made.plate, "thread-engagement", LEVEL_STOP, 0, 0);
}

/* FED-STD-H28/2, worked by hand for 8-32 in 6061-T6 (shear strength 207 N/mm2): 2A major 0.1571 in
 * at least, 2B pitch diameter 0.1475 in at most (ASME B1.1); so a square millimetre of
 * pi n Ds (1/(2n) + 0.57735 (Ds - En)) a millimetre of length shears in the plate, and half of
 * 0.0140 in2 x 965 N/mm2 must be held. The thread begins 0.069 in below the shoulder's end. */
static double needed_for_8_32(void)
{
    double n = 32 / INCH, major = 0.1571 * INCH, pitch = 0.1475 * INCH;
    double shears = M_PI * n * major * (1 / (2 * n) + 0.57735 * (major - pitch));
    double area = 0.7854 * pow((0.164 - 0.9743 / 32) * INCH, 2);
    return area * 965 / (shears * 207) / 2;
}

static void test_shoulder_by_strength(void **state)
{
    double depth = 0.069 * INCH + needed_for_8_32();
    for (int fails = 0; fails < 2; fails++) {
        double tapped = (fails ? floor(depth * 1000) : ceil(depth * 1000)) / 1000;
        Bench made = bench(FITTING_SHOULDER_SCREW, "shoulder screw 3/16", 4.7625, 0.136 * INCH);
        add_step(made.plate, made.hole, STEP_TAP, 0.164 * INCH, tapped, "8-32");
        expect_findings(made.plate, "thread-engagement", LEVEL_CAUTION, fails,
                        tapped - 0.069 * INCH);
    }
    /* Tapped as deep as may be, the screw's own 0.120 in count. */
    Bench made = bench(FITTING_SHOULDER_SCREW, "shoulder screw 3/16", 4.7625, 0.136 * INCH);
    add_step(made.plate, made.hole, STEP_TAP, 0.164 * INCH, 15, "8-32");
    change_limit(made.plate, "thread-engagement", "share", 1);
    expect_findings(made.plate, "thread-engagement", LEVEL_CAUTION, 1, 0.120 * INCH);
}

/* Each standard shoulder screw in its own thread, drilled as is customary and tapped as deep as it
 * reaches, with a part as thick as three necks, raises nothing but a note on how it is guided; in
 * aluminium and in steel. */
static void test_standard_shoulder_screws(void **state)
{
    static const char *const rules[] = {"shoulder-length", "shoulder-bearing",  "shoulder-seat",
                                        "tap-drill",       "thread-engagement", "tap-depth"};
    for (size_t i = 0; i < shoulder_screw_count(); i++) {
        const ShoulderScrew *screw = shoulder_screw_at(i);
        const Thread *thread = thread_find(screw->thread, NULL);
        const Drill *drill = thread->tap_drill ? drill_find(thread->tap_drill, NULL) : NULL;
        double drilled = drill ? length_to_mm(drill->diameter) : thread_hole_for_cut(thread, 75);
        char *size = g_strdup_printf("shoulder screw %s", screw->name);
        double thickness = 3 * length_to_mm(screw->head_neck);
        Bench made = bench(FITTING_SHOULDER_SCREW, size, length_to_mm(screw->nominal), drilled);
        set_thickness(&made, thickness, 0);
        set_size(made.plate, made.fitting, size, thickness, 0, 0);
        add_step(made.plate, made.hole, STEP_TAP, length_to_mm(thread->major),
                 length_to_mm(screw->thread_length), thread->name);
        for (int metal = 0; metal < 2; metal++) {
            FindingList findings = findings_of(made.plate);
            for (size_t r = 0; r < G_N_ELEMENTS(rules); r++)
                if (count_of(&findings, rules[r], NULL))
                    fail_msg("%s of %s", rules[r], size);
            finding_list_clear(&findings);
            set_steel(&made);
        }
        plate_free(made.plate);
        g_free(size);
    }
}

/* Runs the part's profile on the station with a cutter that pushes so hard. */
static void cut_profile(Bench *made, double newtons)
{
    Record *record = record_new(plate_new_id(made->plate), RECORD_OPERATION);
    record->operation.name = g_strdup("profile");
    record->operation.kind = OPERATION_RUNNING;
    *list_append(&record->operation.stations, FeatureId) = made->station;
    Pass *pass = list_append(&record->operation.passes, Pass);
    *pass = (Pass){.where = PASS_OUTLINE_OUTSIDE, .force = llround(newtons * 1e6)};
    put_record(made->plate, record);
}

/* Two M6 hold-downs: 20.1 mm2 each (ISO 898-1; 0.7854 (6 - 0.9382)^2 is 20.1233) at 200 N/mm2. */
static Bench on_two_hold_downs(void)
{
    Bench made = bench(FITTING_HOLD_DOWN, "socket head M6", 6, 5);
    add_step(made.plate, made.hole, STEP_TAP, 6, 15, "M6");
    FeatureId other = put_pin(made.plate, made.station, 1, 5, 5, FITTING_HOLD_DOWN, 6);
    add_step(made.plate, plate_find(made.plate, other)->fitting.hole, STEP_TAP, 6, 15, "M6");
    return made;
}

static void test_comes_loose_by_force(void **state)
{
    const double press = 2 * 200 * 0.7854 * (6 - 0.9382) * (6 - 0.9382);
    /* Sideways friction of 0.1 holds at two faces, against 2.5 times the force. */
    double slides = press * 0.1 * 2 / 2.5;
    for (int fails = 0; fails < 2; fails++) {
        Bench made = on_two_hold_downs();
        cut_profile(&made, floor(slides) + fails);
        expect_findings(made.plate, "comes-loose", LEVEL_CAUTION, fails, press * 0.1 * 2);
    }
    /* Two pins hold it sideways; the helix lifts with 0.58 of the force. */
    double lifts = press / 2.5 / 0.58;
    for (int fails = 0; fails < 2; fails++) {
        Bench made = on_two_hold_downs();
        put_pin(made.plate, made.station, 1, 30, 5, FITTING_DOWEL, 5);
        put_pin(made.plate, made.station, 1, 30, 15, FITTING_DOWEL, 5);
        cut_profile(&made, floor(lifts) + fails);
        cut_profile(&made, 10);
        expect_findings(made.plate, "comes-loose", LEVEL_CAUTION, fails, press);
    }
}

/* A shoulder's head presses when the shoulder is shorter than the thinnest part. */
static void test_shoulder_presses(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = on_8mm(15);
        FeatureId other = put_pin(made.plate, made.station, 1, 5, 5, FITTING_SHOULDER_SCREW, 8);
        add_step(made.plate, plate_find(made.plate, other)->fitting.hole, STEP_TAP, 6, 15, "M6");
        set_thickness(&made, 3, 0.05);
        set_size(made.plate, made.fitting, "shoulder screw 8mm", 2.95 - (1 - fails) * UM, 0, 0);
        set_size(made.plate, other, "shoulder screw 8mm", 2.95 - (1 - fails) * UM, 0, 0);
        cut_profile(&made, 100);
        expect_findings(made.plate, "comes-loose", LEVEL_CAUTION, fails, 0);
    }
}

/* The part of 3 lies on the face, then in a nest 1.5 deep; the counterbore ends 4 below the face.
 */
static void test_shoulder_is_as_long_as_it_is(void **state)
{
    for (int nested = 0; nested < 2; nested++) {
        Bench made = on_8mm(12);
        Placed *placed = placed_new(made.plate);
        const Fitting *fitting = &plate_find(made.plate, made.fitting)->fitting;
        assert_int_equal(fastener_whole_length(placed, fitting), MM(3));
        placed_free(placed);
        add_step(made.plate, made.hole, STEP_COUNTERBORE, 8.5, 4, NULL);
        if (nested)
            put_nest(made.plate, made.station, 0.5, 1.5);
        placed = placed_new(made.plate);
        fitting = &plate_find(made.plate, made.fitting)->fitting;
        assert_int_equal(fastener_whole_length(placed, fitting), nested ? MM(5.5) : MM(7));
        placed_free(placed);
        plate_free(made.plate);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shoulder_is_as_long_as_it_is),
        cmocka_unit_test(test_shoulder_length),
        cmocka_unit_test(test_shoulder_bearing),
        cmocka_unit_test(test_shoulder_seat),
        cmocka_unit_test(test_insert_below_shoulder),
        cmocka_unit_test(test_screw_bottoms),
        cmocka_unit_test(test_shoulder_guided),
        cmocka_unit_test(test_hold_down),
        cmocka_unit_test(test_wrong_thread),
        cmocka_unit_test(test_shoulder_by_strength),
        cmocka_unit_test(test_standard_shoulder_screws),
        cmocka_unit_test(test_comes_loose_by_force),
        cmocka_unit_test(test_shoulder_presses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
