/* The rules about making a hole: each with a case that just passes and one that just fails, by
 * published figures or a closed form, which stand beside them. The plate is 100 x 80 x 20 mm. */
#include "support/plates.h"
#include "trade/drill.h"
#include "trade/thread.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define UM 0.001

static Plate *new_plate(void)
{
    return plate_new(MM(100), MM(80), MM(20), PLATE_MM);
}

/* Drilled and tapped; a depth of 0 goes through. */
static Plate *tapped(const char *thread, double drill, double drill_depth, double tap_depth)
{
    Plate *plate = new_plate();
    FeatureId hole = drill_depth > 0 ? put_blind_hole(plate, 50, 40, drill, drill_depth)
                                     : put_hole(plate, 50, 40, drill);
    double major = thread_find(thread, NULL) ? length_to_mm(thread_find(thread, NULL)->major) : 8;
    add_step(plate, hole, STEP_TAP, major, tap_depth, thread);
    return plate;
}

static Plate *with_tap(Plate *plate, int tap)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *found = plate_at(plate, i);
        if (found->kind != RECORD_HOLE)
            continue;
        Record *record = record_copy(found, found->id);
        LIST_AT(&record->hole.steps, Step, record->hole.steps.count - 1)->tap = tap;
        change_record(plate, record);
        return plate;
    }
    return plate;
}

/* The handbook's formula: hole = D - 0.01299 per cent / n; M6 with a hole d has
 * (6 - d) / 1.299 x 100 per cent. */
static void test_tap_drill(void **state)
{
    double at_83 = 6 - 0.83 * 1.299, at_55 = 6 - 0.55 * 1.299;
    expect_findings(tapped("M6x1", ceil(at_83 * 1000) / 1000, 0, 10), "tap-drill", LEVEL_CAUTION, 0,
                    0);
    double drill = floor(at_83 * 1000) / 1000;
    expect_findings(tapped("M6x1", drill, 0, 10), "tap-drill", LEVEL_CAUTION, 1,
                    (6 - drill) / 1.299 * 100);
    expect_findings(tapped("M6x1", floor(at_55 * 1000) / 1000, 0, 10), "tap-drill", LEVEL_CAUTION,
                    0, 0);
    drill = ceil(at_55 * 1000) / 1000;
    expect_findings(tapped("M6x1", drill, 0, 10), "tap-drill", LEVEL_CAUTION, 1,
                    (6 - drill) / 1.299 * 100);
    /* What the tables don't know, nobody guesses at. */
    expect_findings(tapped("W 3/8", 7.9, 0, 10), "tap-drill", LEVEL_CAUTION, 0, 0);
    /* A tap with no drill. */
    Plate *plate = new_plate();
    FeatureId hole = put_hole(plate, 50, 40, 9);
    add_step(plate, hole, STEP_TAP, 6, 10, "M6x1");
    expect_findings(plate, "tap-drill", LEVEL_CAUTION, 1, 0);
}

/* Every customary tap drill (handbook tables, ISO 2306) passes. */
static void test_customary_drills(void **state)
{
    int tried = 0;
    for (size_t i = 0; i < thread_count(); i++) {
        const Thread *thread = thread_at(i);
        const Drill *drill = thread->tap_drill ? drill_find(thread->tap_drill, NULL) : NULL;
        if (!drill)
            continue;
        Plate *plate = tapped(thread->name, length_to_mm(drill->diameter), 0, 10);
        FindingList findings = findings_of(plate);
        if (count_of(&findings, "tap-drill", NULL))
            fail_msg("%s with its customary drill %s", thread->name, drill->name);
        finding_list_clear(&findings);
        plate_free(plate);
        tried++;
    }
    assert_true(tried > 40);
}

/* A forming tap's drill is larger: 1/4-20 is drilled 0.228 in (65 per cent by D - 0.0068 x per cent
 * / n; handbook), which leaves a cutting tap 34 per cent. */
static void test_forming_tap(void **state)
{
    double drill = (0.25 - 0.0068 * 65 / 20) * 25.4;
    expect_findings(with_tap(tapped("1/4-20", drill, 0, 10), STEP_TAP_FORMING), "tap-drill",
                    LEVEL_CAUTION, 0, 0);
    expect_findings(with_tap(tapped("1/4-20", drill, 0, 10), STEP_TAP_PLUG), "tap-drill",
                    LEVEL_CAUTION, 1, (6.35 - drill) / (1.299 * 25.4 / 20) * 100);
}

/* An insert's hole is drilled for the thread that is tapped for it: 8-32 with #17 (0.173 in), the
 * tap 0.2046 in (ASME B18.29.1, from memory). The screw's own drill is far too small for it. */
static void test_insert_drill(void **state)
{
    Plate *plate = new_plate();
    FeatureId hole = put_hole(plate, 50, 40, 0.173 * 25.4);
    add_step(plate, hole, STEP_TAP, 0.2046 * 25.4, 10, "coil 8-32");
    expect_findings(plate, "tap-drill", LEVEL_CAUTION, 0, 0);
    plate = new_plate();
    hole = put_hole(plate, 50, 40, 0.136 * 25.4);
    add_step(plate, hole, STEP_TAP, 0.2046 * 25.4, 10, "coil 8-32");
    expect_findings(plate, "tap-drill", LEVEL_CAUTION, 1, (0.2046 - 0.136) / (1.299 / 32) * 100);
}

/* Chamfers of 5, 2 and 3 threads (ASME B94.9, from memory), a pitch below, and for a plug tap half
 * the diameter for its male centre: M6x1 tapped 10 deep needs 10 + 2 + 1 with a bottoming tap, 10 +
 * 3 + 1 with a spiral-flute one, 10 + 5 + 1 + 3 with a plug tap. */
static void test_tap_depth(void **state)
{
    const struct {
        int tap;
        double needed;
    } taps[] = {{STEP_TAP_BOTTOMING, 13}, {STEP_TAP_SPIRAL_FLUTE, 14}, {STEP_TAP_PLUG, 19}};
    for (int i = 0; i < 3; i++) {
        expect_findings(with_tap(tapped("M6x1", 5, taps[i].needed, 10), taps[i].tap), "tap-depth",
                        LEVEL_STOP, 0, 0);
        expect_findings(with_tap(tapped("M6x1", 5, taps[i].needed - UM, 10), taps[i].tap),
                        "tap-depth", LEVEL_STOP, 1, taps[i].needed - UM);
    }
    /* Nobody has said which tap: it stops where none would do, and a plug tap is a note. */
    expect_findings(tapped("M6x1", 5, 13 - UM, 10), "tap-depth", LEVEL_STOP, 1, 13 - UM);
    expect_findings(tapped("M6x1", 5, 13, 10), "tap-depth", LEVEL_NOTE, 1, 13);
    expect_findings(tapped("M6x1", 5, 19, 10), "tap-depth", LEVEL_NOTE, 0, 0);
    /* Drilled through, there is room whatever the tap. */
    expect_findings(tapped("M6x1", 5, 0, 19), "tap-depth", LEVEL_STOP, 0, 0);
    /* Tapped through, the drill must be too: the plate is 20 thick. */
    expect_findings(tapped("M6x1", 5, 20, 0), "tap-depth", LEVEL_STOP, 0, 0);
    expect_findings(tapped("M6x1", 5, 20 - UM, 0), "tap-depth", LEVEL_STOP, 1, 20 - UM);
}

static Plate *reamed(double drill, double ream)
{
    Plate *plate = new_plate();
    add_step(plate, put_hole(plate, 50, 40, drill), STEP_REAM, ream, 0, NULL);
    return plate;
}

static void test_ream_stock(void **state)
{
    expect_findings(reamed(6 - 0.1, 6), "ream-stock", LEVEL_CAUTION, 0, 0);
    expect_findings(reamed(6 - 0.1 + UM, 6), "ream-stock", LEVEL_CAUTION, 1, 0.1 - UM);
    expect_findings(reamed(6 - 0.4, 6), "ream-stock", LEVEL_CAUTION, 0, 0);
    expect_findings(reamed(6 - 0.4 - UM, 6), "ream-stock", LEVEL_CAUTION, 1, 0.4 + UM);
    /* The customary 1/64 in under a 3/8 in reamer. */
    expect_findings(reamed(23 / 64.0 * 25.4, 0.375 * 25.4), "ream-stock", LEVEL_CAUTION, 0, 0);
    /* Nothing smaller before it. */
    expect_findings(reamed(7, 6), "ream-stock", LEVEL_CAUTION, 1, 0);
}

static void test_drill_ratio(void **state)
{
    /* 20 mm right through: 2 mm is ten diameters. */
    Plate *plate = new_plate();
    put_hole(plate, 50, 40, 2);
    expect_findings(plate, "drill-ratio", LEVEL_CAUTION, 0, 0);
    plate = new_plate();
    put_hole(plate, 50, 40, 2 - UM);
    expect_findings(plate, "drill-ratio", LEVEL_CAUTION, 1, 20 / (2 - UM));
    plate = new_plate();
    put_blind_hole(plate, 50, 40, 1.5, 15 + UM);
    expect_findings(plate, "drill-ratio", LEVEL_CAUTION, 1, (15 + UM) / 1.5);
    /* From the floor of a counterbore 4 deep, 1.6 mm goes 16 deep: ten times. */
    for (int fails = 0; fails < 2; fails++) {
        plate = new_plate();
        add_step(plate, put_hole(plate, 50, 40, 1.6), STEP_COUNTERBORE, 5, 4 - fails * UM, NULL);
        expect_findings(plate, "drill-ratio", LEVEL_CAUTION, fails, (16 + UM) / 1.6);
    }
}

static void put_insert(Plate *plate, double x, double y)
{
    add_step(plate, put_hole(plate, x, y, 4.2), STEP_TAP, 4.909, 0, "coil M4x0.7");
}

/* A coil insert for M4 is tapped 4.909 mm (ASME B18.29.2M, from memory): half of that is 2.4545 of
 * wall, from a centre 4.909 in. */
static void test_insert_room(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = new_plate();
        put_insert(plate, 4.909 - fails * UM, 40);
        expect_findings(plate, "insert-room", LEVEL_CAUTION, fails, 2.4545 - UM);
        /* 4.909 to the insert's rim and wall, 3 to that of a 6 mm hole. */
        plate = new_plate();
        put_insert(plate, 50, 40);
        put_hole(plate, 50 + 4.909 + 3 - fails * UM, 40, 6);
        expect_findings(plate, "insert-room", LEVEL_CAUTION, fails, 2.4545 - UM);
        /* The same when the insert is put in later than its neighbour. */
        plate = new_plate();
        put_slot(plate, 50, 40, 30, 10, 4);
        put_insert(plate, 50, 45 + 4.909 - fails * UM);
        expect_findings(plate, "insert-room", LEVEL_CAUTION, fails, 2.4545 - UM);
    }
    /* A plain thread needs no more than any hole. */
    Plate *plate = new_plate();
    add_step(plate, put_hole(plate, 4.6, 40, 3.3), STEP_TAP, 4, 0, "M4");
    expect_findings(plate, "insert-room", LEVEL_CAUTION, 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tap_drill),   cmocka_unit_test(test_customary_drills),
        cmocka_unit_test(test_forming_tap), cmocka_unit_test(test_insert_drill),
        cmocka_unit_test(test_tap_depth),   cmocka_unit_test(test_ream_stock),
        cmocka_unit_test(test_drill_ratio), cmocka_unit_test(test_insert_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
