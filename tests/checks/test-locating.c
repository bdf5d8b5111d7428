/* The rules about where a part lies: each with a case that just passes and one that just fails, 1
 * um apart, by the standards' tables or a closed form, which stand beside them. */
#include "support/plates.h"
#include "trade/dowel.h"

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
    FeatureId part, station, one, other;
} Bench;

/* A bar with holes of `diameter` 70 apart on two pins of their own size by the tables. */
static Bench bench(double diameter, int kind, const char *size, double nominal)
{
    const double holes[] = {5, 6, diameter, 75, 6, diameter};
    Bench bench = {.plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM)};
    bench.part = put_part(bench.plate, 80, 12, 3, 2, holes);
    bench.station = put_station(bench.plate, bench.part, 10, 30);
    bench.one = put_pin(bench.plate, bench.station, 1, 5, 6, kind, nominal);
    bench.other = put_pin(bench.plate, bench.station, 2, 75, 6, kind, nominal);
    set_size(bench.plate, bench.one, size, 3, 0, 0);
    set_size(bench.plate, bench.other, size, 3, 0, 0);
    return bench;
}

/* Shoulder screw 1/4 in: 0.2480 to 0.2460 in (ASME B18.3), which counts although the fitting states
 * no limits of its own. */
static void test_fit_by_table(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made =
            bench(0.248 * INCH - fails * UM, FITTING_SHOULDER_SCREW, "shoulder screw 1/4", 6.35);
        expect_findings(made.plate, "locator-fit", LEVEL_STOP, 2 * fails, -UM);
    }
    /* 0.246 in are 6.2484 mm: a hole of 6.3084 has 0.06 of play at most. */
    expect_findings(bench(6.3084, FITTING_SHOULDER_SCREW, "shoulder screw 1/4", 6.35).plate,
                    "locator-fit", LEVEL_CAUTION, 0, 0);
    expect_findings(bench(6.3084 + UM, FITTING_SHOULDER_SCREW, "shoulder screw 1/4", 6.35).plate,
                    "locator-fit", LEVEL_CAUTION, 2, 0.06 + UM);
    /* A size of another diameter says nothing: 6.3 in 6.35 is as it stands. */
    expect_findings(bench(6.35, FITTING_SHOULDER_SCREW, "shoulder screw 1/2", 6.3).plate,
                    "locator-fit", LEVEL_CAUTION, 0, 0);
}

static Bench dowels(double ream, double upper)
{
    Bench made = bench(6.02, FITTING_DOWEL, "dowel 6mm", 6);
    FeatureId pins[] = {made.one, made.other};
    for (int i = 0; i < 2; i++) {
        FeatureId hole = plate_find(made.plate, pins[i])->fitting.hole;
        Record *record = record_copy(plate_find(made.plate, hole), hole);
        LIST_AT(&record->hole.steps, Step, 0)->diameter = MM(5.8);
        Step *step = list_append(&record->hole.steps, Step);
        *step = (Step){.kind = STEP_REAM, .diameter = MM(ream), .through = true};
        step->upper = MM(upper);
        change_record(made.plate, record);
    }
    return made;
}

/* A dowel of 6 mm is m6: 6.012 to 6.004 (ISO 8734, ISO 286-2). In a hole H7 (6.000 to 6.012) it is
 * pressed; up to 0.001 of the diameter and 0.01 mm more can be, which is 16 um. */
static void test_pin_in_plate(void **state)
{
    expect_findings(dowels(6, 0.012).plate, "locator-fit", LEVEL_STOP, 0, 0);
    expect_findings(dowels(6, 0.012).plate, "locator-fit", LEVEL_CAUTION, 0, 0);
    expect_findings(dowels(6.012 - 0.016, 0.012).plate, "locator-fit", LEVEL_STOP, 0, 0);
    expect_findings(dowels(6.012 - 0.017, 0.012).plate, "locator-fit", LEVEL_STOP, 2, -0.017);
    /* Loose by more than 0.05 at the least pin and the greatest hole. */
    expect_findings(dowels(6.004 + 0.038, 0.012).plate, "locator-fit", LEVEL_CAUTION, 0, 0);
    expect_findings(dowels(6.004 + 0.039, 0.012).plate, "locator-fit", LEVEL_CAUTION, 2, 0.051);
    /* Drilled alone. */
    expect_findings(bench(6.02, FITTING_DOWEL, "dowel 6mm", 6).plate, "locator-fit", LEVEL_CAUTION,
                    2, 0);
}

/* Each dowel in the hole that its standard suggests (ASME B18.8.2 and H7 for ISO 8734, as the
 * tables have them) raises nothing. */
static void test_standard_pins(void **state)
{
    for (size_t i = 0; i < dowel_count(); i++) {
        const Dowel *dowel = dowel_at(i);
        double nominal = length_to_mm(dowel->nominal);
        char *size = g_strdup_printf("dowel %s", dowel->name);
        int kind = dowel->land ? FITTING_RELIEVED_PIN : FITTING_DOWEL;
        Bench made = bench(length_to_mm(dowel->greatest) + 0.01, kind, size, nominal);
        FeatureId pins[] = {made.one, made.other};
        for (int k = 0; k < 2; k++) {
            FeatureId hole = plate_find(made.plate, pins[k])->fitting.hole;
            Record *record = record_copy(plate_find(made.plate, hole), hole);
            LIST_AT(&record->hole.steps, Step, 0)->diameter = MM(nominal - 0.2);
            Step *step = list_append(&record->hole.steps, Step);
            *step = (Step){.kind = STEP_REAM, .diameter = dowel->nominal, .through = true};
            step->upper = dowel->hole_greatest - dowel->nominal;
            step->lower = dowel->hole_least - dowel->nominal;
            change_record(made.plate, record);
        }
        FindingList findings = findings_of(made.plate);
        if (count_of(&findings, "locator-fit", NULL) || count_of(&findings, "ream-stock", NULL))
            fail_msg("dowel %s in its own hole", dowel->name);
        finding_list_clear(&findings);
        plate_free(made.plate);
        g_free(size);
    }
}

/* Pins of 4.98 in holes of 5.00, 70 apart, leave 0.02 each: 0.01 a side, 0.02 in the distance. */
static Bench pitched(double zone, double growth, int other_kind)
{
    const double holes[] = {5, 6, 5, 75, 6, 5};
    Bench made = {.plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM)};
    made.part = put_part(made.plate, 80, 12, 3, 2, holes);
    made.station = put_station(made.plate, made.part, 10, 30);
    made.one = put_pin(made.plate, made.station, 1, 5, 6, FITTING_DOWEL, 4.98);
    made.other = put_pin(made.plate, made.station, 2, 75, 6, other_kind, 4.98);
    Record *part = record_copy(plate_find(made.plate, made.part), made.part);
    part->part.growth = llround(growth * 1e6);
    for (int i = 0; i < 2; i++)
        LIST_AT(&part->part.holes, PartHole, i)->position_tolerance = MM(zone);
    change_record(made.plate, part);
    return made;
}

static void test_locator_pitch(void **state)
{
    /* Two zones of 0.02 let the distance be off by 0.02; the smallest step is 1 um of a zone. */
    expect_findings(pitched(0.02, 0, FITTING_DOWEL).plate, "locator-pitch", LEVEL_CAUTION, 0, 0);
    expect_findings(pitched(0.021, 0, FITTING_DOWEL).plate, "locator-pitch", LEVEL_CAUTION, 1,
                    0.02);
    /* Growth of 0.028571 per cent is 0.0199997 over 70 mm, of 0.028573 0.0200011. */
    expect_findings(pitched(0, 0.028571, FITTING_DOWEL).plate, "locator-pitch", LEVEL_CAUTION, 0,
                    0);
    expect_findings(pitched(0, 0.028573, FITTING_DOWEL).plate, "locator-pitch", LEVEL_CAUTION, 1,
                    0.02);
    /* Both together: 0.01 and 0.01. */
    expect_findings(pitched(0.01, 0.014285, FITTING_DOWEL).plate, "locator-pitch", LEVEL_CAUTION, 0,
                    0);
    expect_findings(pitched(0.01, 0.014287, FITTING_DOWEL).plate, "locator-pitch", LEVEL_CAUTION, 1,
                    0.02);
    /* Shrinking is as bad; a relieved pin takes it all; what is not stated is nothing. */
    expect_findings(pitched(0, -0.03, FITTING_DOWEL).plate, "locator-pitch", LEVEL_CAUTION, 1,
                    0.02);
    expect_findings(pitched(0.1, 0.1, FITTING_RELIEVED_PIN).plate, "locator-pitch", LEVEL_CAUTION,
                    0, 0);
    expect_findings(pitched(0, 0, FITTING_DOWEL).plate, "locator-pitch", LEVEL_CAUTION, 0, 0);
    /* The plate's own tolerance counts as the part's does. */
    for (int fails = 0; fails < 2; fails++) {
        Bench made = pitched(0.015, 0, FITTING_DOWEL);
        FeatureId hole = plate_find(made.plate, made.one)->fitting.hole;
        Record *record = record_copy(plate_find(made.plate, hole), hole);
        record->hole.position_tolerance = MM(0.01 + fails * UM);
        change_record(made.plate, record);
        expect_findings(made.plate, "locator-pitch", LEVEL_CAUTION, fails, 0.02);
    }
}

/* An accepted finding names its features in rising order, whatever the sentence's order. */
static void test_accepted_in_any_order(void **state)
{
    Bench made = bench(6.3084, FITTING_SHOULDER_SCREW, "shoulder screw 1/4", 6.35);
    const Finding *first = NULL;
    FindingList findings = findings_of(made.plate);
    assert_int_equal(count_of(&findings, "thread-engagement", &first), 2);
    assert_int_equal(first->feature_count, 2);
    Record *settings = record_copy(plate_find(made.plate, ID_SETTINGS), ID_SETTINGS);
    AcceptedFinding *accepted = list_append(&settings->settings.accepted, AcceptedFinding);
    accepted->rule = g_strdup("thread-engagement");
    FeatureId a = first->features[0], b = first->features[1];
    *list_append(&accepted->features, FeatureId) = MIN(a, b);
    *list_append(&accepted->features, FeatureId) = MAX(a, b);
    change_record(made.plate, settings);
    finding_list_clear(&findings);
    findings = findings_of(made.plate);
    assert_int_equal(finding_list_counts(&findings).accepted, 1);
    finding_list_clear(&findings);
    plate_free(made.plate);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fit_by_table),          cmocka_unit_test(test_pin_in_plate),
        cmocka_unit_test(test_standard_pins),         cmocka_unit_test(test_locator_pitch),
        cmocka_unit_test(test_accepted_in_any_order),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
