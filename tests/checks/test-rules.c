/* Each rule has a case that just passes and one that just fails, 1 um apart, by closed form: the
 * figures stand beside them. The plate is 100 x 80 x 20 mm of aluminium unless told. */
#include "support/plates.h"

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

/* Looks for findings of one rule and level on the plate, then frees it. */
static void expect(Plate *plate, const char *slug, FindingLevel level, int count, double value)
{
    const Finding *first = NULL;
    FindingList findings = findings_of(plate);
    int found = 0;
    for (uint32_t i = 0; i < findings.count; i++) {
        const Finding *finding = &findings.items[i];
        if (strcmp(finding->rule->slug, slug) == 0 && finding->level == level) {
            found++;
            first = finding;
        }
    }
    if (found != count)
        fail_msg("%s: %d findings, %d expected", slug, found, count);
    if (count && fabs(first->value - value) > 1e-6)
        fail_msg("%s: the figure is %.7f, %.7f expected", slug, first->value, value);
    finding_list_clear(&findings);
    plate_free(plate);
}

static Plate *with_hole(double x, double y, double diameter)
{
    Plate *plate = new_plate();
    put_hole(plate, x, y, diameter);
    return plate;
}

static void test_outside_plate(void **state)
{
    /* A 6 mm hole whose centre is 3 mm from the edge touches it from inside. */
    expect(with_hole(3, 40, 6), "outside-plate", LEVEL_STOP, 0, 0);
    expect(with_hole(3 - UM, 40, 6), "outside-plate", LEVEL_STOP, 1, -UM);
    /* A slot 10 wide may be meant to run out: a caution. */
    Plate *plate = new_plate();
    put_slot(plate, 50, 5, 30, 10, 4);
    expect(plate, "outside-plate", LEVEL_CAUTION, 0, 0);
    plate = new_plate();
    put_slot(plate, 50, 5 - UM, 30, 10, 4);
    expect(plate, "outside-plate", LEVEL_CAUTION, 1, -UM);
}

static void test_edge_distance(void **state)
{
    /* Wall: 2 mm beside a 4 mm hole puts its centre at 4 mm. */
    expect(with_hole(4, 40, 4), "edge-distance", LEVEL_STOP, 1, 4.0);
    expect(with_hole(4 - UM, 40, 4), "edge-distance", LEVEL_STOP, 1, 2.0 - UM);
    /* Centre: 1.2 diameters of 10 mm are 12 mm, 1.5 are 15 mm; the walls of 7 and 10 mm are fine.
     */
    expect(with_hole(12, 40, 10), "edge-distance", LEVEL_STOP, 0, 0);
    expect(with_hole(12 - UM, 40, 10), "edge-distance", LEVEL_STOP, 1, 12 - UM);
    expect(with_hole(15, 40, 10), "edge-distance", LEVEL_CAUTION, 0, 0);
    expect(with_hole(15 - UM, 40, 10), "edge-distance", LEVEL_CAUTION, 1, 15 - UM);
    /* The other edges, from the far corner. */
    expect(with_hole(50, 80 - 12 + UM, 10), "edge-distance", LEVEL_STOP, 1, 12 - UM);
    expect(with_hole(100 - 12 + UM, 40, 10), "edge-distance", LEVEL_STOP, 1, 12 - UM);
    /* A slot has no centre rule: only its wall counts. */
    Plate *plate = new_plate();
    put_slot(plate, 50, 5 + 2, 30, 10, 4);
    expect(plate, "edge-distance", LEVEL_STOP, 0, 0);
    plate = new_plate();
    put_slot(plate, 50, 5 + 2 - UM, 30, 10, 4);
    expect(plate, "edge-distance", LEVEL_STOP, 1, 2 - UM);
}

static void test_edge_distance_in_steel(void **state)
{
    /* 1.5 mm of wall beside a 2 mm hole: 2.5 mm from the edge; 1.2 diameters are 2.4 mm. */
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = with_hole(2.5 - fails * UM, 40, 2);
        Record *settings = record_copy(plate_find(plate, ID_SETTINGS), ID_SETTINGS);
        settings->settings.stock.metal = METAL_STEEL;
        change_record(plate, settings);
        expect(plate, "edge-distance", LEVEL_STOP, fails, 1.5 - UM);
    }
}

static void test_changed_limit(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = with_hole(7 - fails * UM, 40, 4);
        Record *settings = record_copy(plate_find(plate, ID_SETTINGS), ID_SETTINGS);
        ChangedLimit *limit = list_append(&settings->settings.limits, ChangedLimit);
        limit->rule = g_strdup("edge-distance");
        limit->limit = g_strdup("wall_aluminium");
        limit->value = 5000000;
        change_record(plate, settings);
        expect(plate, "edge-distance", LEVEL_STOP, fails, 5 - UM);
    }
}

static void test_web(void **state)
{
    /* Two 6 mm holes 8 mm apart leave 2 mm; by Pythagoras 4.8 and 6.4 are 8. */
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = with_hole(40, 40, 6);
        put_hole(plate, 44.8 - fails * UM, 46.4, 6);
        /* Moved along X by a small d, the distance changes by 0.6 d. */
        double value = sqrt((4.8 - UM) * (4.8 - UM) + 6.4 * 6.4) - 6;
        expect(plate, "web", LEVEL_STOP, fails, value);
    }
    /* A hole beside a slot's straight side: 5 + 2 + 3 = 10. */
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = with_hole(50, 50 - fails * UM, 6);
        put_slot(plate, 50, 40, 30, 10, 4);
        expect(plate, "web", LEVEL_STOP, fails, 2 - UM);
    }
}

/* A pin through the plate at a place, by limits added to its 6 mm; its hole is 6 mm sharp. */
static Plate *with_pin(double x, double y, int kind, Length upper)
{
    Plate *plate = new_plate();
    FeatureId id = put_pin(plate, ID_NONE, 0, x, y, kind, 6);
    Record *pin = record_copy(plate_find(plate, id), id);
    pin->fitting.upper = pin->fitting.lower = upper;
    change_record(plate, pin);
    return plate;
}

/* One diameter of 6 mm beyond a radius of 3: the axis is 9 mm from the edge (common practice). The
 * hole alone wants no more than 1.2 diameters to its axis, 7.2 mm. */
static void test_pressed_pin_at_the_edge(void **state)
{
    static const int pins[] = {FITTING_DOWEL, FITTING_RELIEVED_PIN};
    for (int i = 0; i < 2; i++) {
        expect(with_pin(9, 40, pins[i], 5 * LENGTH_UM), "edge-distance", LEVEL_STOP, 0, 0);
        expect(with_pin(9 - UM, 40, pins[i], 5 * LENGTH_UM), "edge-distance", LEVEL_STOP, 1,
               6 - UM);
    }
    /* As wide as its hole it is still driven in; a nanometre less and it slips. */
    expect(with_pin(8, 40, FITTING_DOWEL, 0), "edge-distance", LEVEL_STOP, 1, 5);
    expect(with_pin(8, 40, FITTING_DOWEL, -1), "edge-distance", LEVEL_STOP, 0, 0);
    /* A shoulder screw is not pressed in. */
    expect(with_pin(8, 40, FITTING_SHOULDER_SCREW, 0), "edge-distance", LEVEL_STOP, 0, 0);
}

/* To a hole of 4 mm: 3 + 6 + 2 mm from axis to axis. To a slot's straight side: 3 + 6 + 5. */
static void test_pressed_pin_beside_a_recess(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = with_pin(40, 40, FITTING_DOWEL, 5 * LENGTH_UM);
        put_hole(plate, 51 - fails * UM, 40, 4);
        expect(plate, "web", LEVEL_STOP, fails, 6 - UM);
        plate = with_pin(50, 54 - fails * UM, FITTING_DOWEL, 5 * LENGTH_UM);
        put_slot(plate, 50, 40, 30, 10, 4);
        expect(plate, "web", LEVEL_STOP, fails, 6 - UM);
    }
    /* One that slips wants the usual wall of 2 mm: 3 + 2 + 2. */
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = with_pin(40, 40, FITTING_DOWEL, -LENGTH_UM);
        put_hole(plate, 47 - fails * UM, 40, 4);
        expect(plate, "web", LEVEL_STOP, fails, 2 - UM);
    }
    /* Two pins push from both sides: each has its own finding. 3 + 6 + 3 mm apart they are fine. */
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = with_pin(40, 40, FITTING_DOWEL, 5 * LENGTH_UM);
        put_pin(plate, ID_NONE, 0, 52 - fails * UM, 40, FITTING_DOWEL, 6);
        expect(plate, "web", LEVEL_STOP, 2 * fails, 6 - UM);
    }
}

static void test_web_by_depth(void **state)
{
    /* A counterbore 10 wide and 5 deep on a 4 mm hole, beside a 6 mm hole: centres 10 apart leave 2
     * beside the counterbore (10 - 5 - 3) and 5 beside the drill. */
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = with_hole(50 - fails * UM, 40, 6);
        FeatureId id = put_hole(plate, 40, 40, 4);
        Record *record = record_copy(plate_find(plate, id), id);
        Step *step = list_append(&record->hole.steps, Step);
        step->kind = STEP_COUNTERBORE;
        step->diameter = MM(10);
        step->depth = MM(5);
        change_record(plate, record);
        expect(plate, "web", LEVEL_STOP, fails, 2 - UM);
    }
}

static void test_overlap(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = with_hole(40, 40, 6);
        put_hole(plate, 46 - fails * UM, 40, 6);
        expect(plate, "overlap", LEVEL_STOP, fails, -UM);
    }
    /* A hole wholly in a slot's floor is no overlap; one that reaches over the slot's side is. */
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = with_hole(50, 42 + fails * UM, 6);
        put_slot(plate, 50, 40, 30, 10, 4);
        FindingList findings = findings_of(plate);
        assert_int_equal(count_of(&findings, "overlap", NULL), fails);
        assert_int_equal(count_of(&findings, "web", NULL), 0);
        finding_list_clear(&findings);
        plate_free(plate);
    }
}

static void test_floor(void **state)
{
    /* 20 mm of stock less 18 of depth leaves 2. */
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = new_plate();
        put_blind_hole(plate, 50, 40, 6, 18 + fails * UM);
        expect(plate, "floor", LEVEL_STOP, fails, 2 - UM);
    }
}

static void add_point(Plate *plate, FeatureId id)
{
    Record *record = record_copy(plate_find(plate, id), id);
    LIST_AT(&record->hole.steps, Step, 0)->point = 90 * ANGLE_DEGREE;
    change_record(plate, record);
}

static void test_floor_below_a_point(void **state)
{
    /* A 90 degree point of a 6 mm drill is 3 mm long: 15 + 3 leaves 2 of 20. */
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = new_plate();
        add_point(plate, put_blind_hole(plate, 50, 40, 6, 15 + fails * UM));
        expect(plate, "floor", LEVEL_STOP, fails, 2 - UM);
    }
}

static void test_breaks_through(void **state)
{
    /* The point of the same drill comes out from 17 mm on. */
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = new_plate();
        add_point(plate, put_blind_hole(plate, 50, 40, 6, 17 + fails * UM));
        expect(plate, "breaks-through", LEVEL_STOP, fails, -UM);
    }
    Plate *plate = new_plate();
    put_blind_hole(plate, 50, 40, 6, 20 + UM);
    expect(plate, "breaks-through", LEVEL_STOP, 1, -UM);
    expect(with_hole(50, 40, 6), "breaks-through", LEVEL_STOP, 0, 0);
}

static void test_datum_lost(void **state)
{
    /* The datum is the front left corner; a 6 mm hole 3 mm to its right reaches it. */
    expect(with_hole(3 + UM, 0, 6), "datum-lost", LEVEL_STOP, 0, 0);
    expect(with_hole(3 - UM, 0, 6), "datum-lost", LEVEL_STOP, 1, 0);
    /* A hole that is the datum itself is no loss. */
    Plate *plate = new_plate();
    FeatureId id = put_hole(plate, 50, 40, 6);
    Record *settings = record_copy(plate_find(plate, ID_SETTINGS), ID_SETTINGS);
    settings->settings.datum.kind = DATUM_HOLE;
    settings->settings.datum.hole = id;
    change_record(plate, settings);
    expect(plate, "datum-lost", LEVEL_STOP, 0, 0);
}

static void test_keep_clear(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = new_plate();
        Record *record = record_new(plate_new_id(plate), RECORD_KEEP_CLEAR);
        record->keep_clear.face = ID_TOP;
        record->keep_clear.at = (Place){MM(50), MM(40)};
        record->keep_clear.length = MM(20);
        record->keep_clear.width = MM(10);
        record->keep_clear.depth = MM(20);
        put_record(plate, record);
        put_hole(plate, 63 - fails * UM, 40, 6);
        expect(plate, "keep-clear", LEVEL_STOP, fails, -UM);
    }
}

static void test_parts_overlap(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = new_plate();
        FeatureId part = put_part(plate, 40, 10, 3, 0, NULL);
        put_station(plate, part, 10, 20);
        put_station(plate, part, 10, 30 - fails * UM);
        FindingList findings = findings_of(plate);
        assert_int_equal(count_of(&findings, "parts-overlap", NULL), fails);
        finding_list_clear(&findings);
        plate_free(plate);
    }
}

static void test_part_overhang(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Plate *plate = new_plate();
        put_station(plate, put_part(plate, 40, 10, 3, 0, NULL), 60 + fails * UM, 20);
        expect(plate, "part-overhang", LEVEL_CAUTION, fails, UM);
    }
}

/* A bar of 80 x 12 with holes 70 apart, on two pins. */
static Plate *on_two_pins(double one, double other, int kind)
{
    const double holes[] = {5, 6, 5, 75, 6, 5};
    Plate *plate = new_plate();
    FeatureId station = put_station(plate, put_part(plate, 80, 12, 3, 2, holes), 10, 30);
    put_pin(plate, station, 1, 5, 6, FITTING_SHOULDER_SCREW, one);
    put_pin(plate, station, 2, 75, 6, kind, other);
    return plate;
}

static void test_two_locators(void **state)
{
    const double holes[] = {5, 6, 5, 75, 6, 5};
    Plate *plate = new_plate();
    FeatureId station = put_station(plate, put_part(plate, 80, 12, 3, 2, holes), 10, 30);
    put_pin(plate, station, 1, 5, 6, FITTING_SHOULDER_SCREW, 4.98);
    expect(plate, "two-locators", LEVEL_STOP, 1, 1);
    expect(on_two_pins(4.98, 4.98, FITTING_DOWEL), "two-locators", LEVEL_STOP, 0, 0);
    /* The same clearance c at both pins 70 apart turns the part by c / 70: 0.25 degrees of arc at
     * 70 mm are 0.305433 mm. */
    expect(on_two_pins(5 - 0.305, 5 - 0.305, FITTING_DOWEL), "two-locators", LEVEL_CAUTION, 0, 0);
    expect(on_two_pins(5 - 0.306, 5 - 0.306, FITTING_DOWEL), "two-locators", LEVEL_CAUTION, 1,
           0.306 / 70 * 57.29577951308232);
    /* Two pins with 10 um of clearance or less are tight, unless one is relieved. */
    expect(on_two_pins(5 - 0.011, 5 - 0.010, FITTING_DOWEL), "two-locators", LEVEL_CAUTION, 0, 0);
    expect(on_two_pins(5 - 0.010, 5 - 0.010, FITTING_DOWEL), "two-locators", LEVEL_CAUTION, 1,
           0.010);
    expect(on_two_pins(5 - 0.010, 5 - 0.010, FITTING_RELIEVED_PIN), "two-locators", LEVEL_CAUTION,
           0, 0);
}

static void test_locator_fit(void **state)
{
    expect(on_two_pins(5, 4.98, FITTING_DOWEL), "locator-fit", LEVEL_STOP, 0, 0);
    expect(on_two_pins(5 + UM, 4.98, FITTING_DOWEL), "locator-fit", LEVEL_STOP, 1, -UM);
    expect(on_two_pins(4.94, 4.98, FITTING_DOWEL), "locator-fit", LEVEL_CAUTION, 0, 0);
    expect(on_two_pins(4.94 - UM, 4.98, FITTING_DOWEL), "locator-fit", LEVEL_CAUTION, 1, 0.06 + UM);
}

static void test_comes_loose(void **state)
{
    expect(on_two_pins(4.98, 4.98, FITTING_DOWEL), "comes-loose", LEVEL_STOP, 1, 1);
    expect(on_two_pins(4.98, 4.98, FITTING_SHOULDER_SCREW), "comes-loose", LEVEL_STOP, 0, 0);
}

static void test_loads_wrong(void **state)
{
    /* Both holes on the middle line of a bar that is the same either way: no harm. */
    FindingList findings;
    Plate *plate = on_two_pins(4.98, 4.98, FITTING_DOWEL);
    findings = findings_of(plate);
    assert_int_equal(count_of(&findings, "loads-wrong", NULL), 0);
    finding_list_clear(&findings);
    plate_free(plate);
    /* With a small hole off the middle, that no pin goes through, either way is wrong but one. */
    const double marked[] = {5, 6, 5, 75, 6, 5, 30, 3, 1};
    plate = new_plate();
    FeatureId bar = put_station(plate, put_part(plate, 80, 12, 3, 3, marked), 10, 30);
    put_pin(plate, bar, 1, 5, 6, FITTING_SHOULDER_SCREW, 4.98);
    put_pin(plate, bar, 2, 75, 6, FITTING_DOWEL, 4.98);
    findings = findings_of(plate);
    assert_int_equal(count_of(&findings, "loads-wrong", NULL), 2);
    finding_list_clear(&findings);
    plate_free(plate);
    /* A third pin through a hole off the middle line lets it on one way alone. */
    const double holes[] = {5, 6, 5, 75, 6, 5, 30, 3, 4};
    plate = new_plate();
    FeatureId station = put_station(plate, put_part(plate, 80, 12, 3, 3, holes), 10, 30);
    put_pin(plate, station, 1, 5, 6, FITTING_SHOULDER_SCREW, 4.98);
    put_pin(plate, station, 2, 75, 6, FITTING_DOWEL, 4.98);
    put_pin(plate, station, 3, 30, 3, FITTING_DOWEL, 3.98);
    findings = findings_of(plate);
    assert_int_equal(count_of(&findings, "loads-wrong", NULL), 0);
    finding_list_clear(&findings);
    plate_free(plate);
    /* Holes 70 apart with 20 um of play each swap when the pitches agree; different diameters by
     * more than the play don't: the larger pin will not enter the smaller hole. */
    const double unlike[] = {5, 4, 5, 75, 4, 4};
    plate = new_plate();
    station = put_station(plate, put_part(plate, 80, 12, 3, 2, unlike), 10, 30);
    put_pin(plate, station, 1, 5, 4, FITTING_SHOULDER_SCREW, 4.98);
    put_pin(plate, station, 2, 75, 4, FITTING_DOWEL, 3.98);
    findings = findings_of(plate);
    assert_int_equal(count_of(&findings, "loads-wrong", NULL), 1);
    finding_list_clear(&findings);
    plate_free(plate);
}

static Plate *on_base(double x, double diameter)
{
    Plate *plate = new_plate();
    Record *record = record_new(plate_new_id(plate), RECORD_BASE);
    record->base.name = g_strdup("mill");
    BaseSeat *one = list_append(&record->base.seats, BaseSeat);
    *one = (BaseSeat){.kind = BASE_ROUND_PIN, .at = {MM(10), MM(40)}, .diameter = MM(8)};
    BaseSeat *other = list_append(&record->base.seats, BaseSeat);
    *other =
        (BaseSeat){.kind = BASE_RELIEVED_PIN, .at = {MM(90), MM(40)}, .diameter = MM(diameter)};
    BaseSeat *stud = list_append(&record->base.seats, BaseSeat);
    *stud = (BaseSeat){.kind = BASE_PULL_DOWN, .at = {MM(x), MM(40)}, .diameter = MM(6)};
    put_record(plate, record);
    return plate;
}

static void test_plate_reverses(void **state)
{
    /* Pins alike and the stud in their middle: it goes on both ways. Turned about 50, a stud at x
     * meets itself at 100 - x: 0.5 mm out of place when it is 0.25 from the middle. */
    expect(on_base(50.25, 8), "plate-reverses", LEVEL_CAUTION, 1, 0);
    expect(on_base(50.25 + UM, 8), "plate-reverses", LEVEL_CAUTION, 0, 0);
    expect(on_base(50, 8.5), "plate-reverses", LEVEL_CAUTION, 1, 0);
    expect(on_base(50, 8.5 + UM), "plate-reverses", LEVEL_CAUTION, 0, 0);
}

static void test_accepted(void **state)
{
    Plate *plate = with_hole(3, 40, 4);
    const Finding *first = NULL;
    FindingList findings = findings_of(plate);
    assert_int_equal(count_of(&findings, "edge-distance", &first), 1);
    Record *settings = record_copy(plate_find(plate, ID_SETTINGS), ID_SETTINGS);
    AcceptedFinding *accepted = list_append(&settings->settings.accepted, AcceptedFinding);
    accepted->rule = g_strdup("edge-distance");
    *list_append(&accepted->features, FeatureId) = first->features[0];
    accepted->reason = g_strdup("the vise jaw backs it");
    change_record(plate, settings);
    finding_list_clear(&findings);
    findings = findings_of(plate);
    FindingCounts counts = finding_list_counts(&findings);
    assert_int_equal(counts.by_level[LEVEL_STOP], 0);
    assert_int_equal(counts.accepted, 1);
    finding_list_clear(&findings);
    plate_free(plate);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_outside_plate),
        cmocka_unit_test(test_edge_distance),
        cmocka_unit_test(test_edge_distance_in_steel),
        cmocka_unit_test(test_changed_limit),
        cmocka_unit_test(test_web),
        cmocka_unit_test(test_pressed_pin_at_the_edge),
        cmocka_unit_test(test_pressed_pin_beside_a_recess),
        cmocka_unit_test(test_web_by_depth),
        cmocka_unit_test(test_overlap),
        cmocka_unit_test(test_floor),
        cmocka_unit_test(test_floor_below_a_point),
        cmocka_unit_test(test_breaks_through),
        cmocka_unit_test(test_datum_lost),
        cmocka_unit_test(test_keep_clear),
        cmocka_unit_test(test_parts_overlap),
        cmocka_unit_test(test_part_overhang),
        cmocka_unit_test(test_two_locators),
        cmocka_unit_test(test_locator_fit),
        cmocka_unit_test(test_comes_loose),
        cmocka_unit_test(test_loads_wrong),
        cmocka_unit_test(test_plate_reverses),
        cmocka_unit_test(test_accepted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
