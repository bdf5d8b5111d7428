/* The rules about edge clamps: each with a case that just passes and one that just fails, 1 um (or
 * 1 N) apart, by a closed form that stands beside it. The plate is 100 x 80 x 20 mm of aluminium.
 */
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define UM 0.001

typedef struct Bench {
    Plate *plate;
    FeatureId part, station, clamp;
} Bench;

/* A bar 40 x 20 and 3 thick with its lower left corner at 30, 30, and a clamp 12 long and 10 wide
 * whose jaw is `apart` above its upper side and pushes down. */
static Bench bench(double apart)
{
    Bench made = {.plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM)};
    made.part = put_part(made.plate, 40, 20, 3, 0, NULL);
    made.station = put_station(made.plate, made.part, 30, 30);
    made.clamp = put_clamp(made.plate, ID_NONE, 50, 50 + apart + 6, 270, 12, 10);
    return made;
}

static void change_clamp(Bench *made, double height, double force)
{
    Record *record = record_copy(plate_find(made->plate, made->clamp), made->clamp);
    record->fitting.head_height = MM(height);
    record->fitting.force = llround(force * 1e6);
    change_record(made->plate, record);
}

static void give_blank(Bench *made, double y, double width, double thickness, const char *material)
{
    Record *record = record_copy(plate_find(made->plate, made->part), made->part);
    Blank *blank = &record->part.blank;
    *blank = (Blank){{MM(-5), MM(y)}, MM(50), MM(width), MM(thickness)};
    record->part.material = g_strdup(material);
    change_record(made->plate, record);
}

static void test_clamp_travel(void **state)
{
    /* Travel from 0 to 1. */
    expect_findings(bench(0).plate, "clamp-travel", LEVEL_STOP, 0, 0);
    expect_findings(bench(-UM).plate, "clamp-travel", LEVEL_STOP, 1, -UM);
    expect_findings(bench(1).plate, "clamp-travel", LEVEL_STOP, 0, 0);
    expect_findings(bench(1 + UM).plate, "clamp-travel", LEVEL_STOP, 1, 1 + UM);
    /* The blank counts where there is one: its upper side lies 2 above the part's. */
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(3 + fails * UM);
        give_blank(&made, -2, 24, 3, NULL);
        expect_findings(made.plate, "clamp-travel", LEVEL_STOP, fails, 1 + UM);
    }
    /* Turned away, it pushes against nothing; another blank may lie there. */
    Bench made = bench(0.5);
    Record *record = record_copy(plate_find(made.plate, made.clamp), made.clamp);
    record->fitting.rotation = 90 * ANGLE_DEGREE;
    change_record(made.plate, record);
    expect_findings(made.plate, "clamp-travel", LEVEL_CAUTION, 1, 0);
}

static void test_nearest_blank(void **state)
{
    /* Of two blanks in front the nearer is meant; with a station, that station's. */
    Bench made = bench(0.5);
    put_station(made.plate, made.part, 30, 5);
    expect_findings(made.plate, "clamp-travel", LEVEL_STOP, 0, 0);
    made = bench(0.5);
    FeatureId other = put_station(made.plate, made.part, 30, 5);
    /* In the station's own coordinates the clamp's middle lies at 20, 51.5. */
    put_clamp(made.plate, other, 20, 51.5, 270, 12, 10);
    expect_findings(made.plate, "clamp-travel", LEVEL_STOP, 1, 25.5);
    /* Slanted at 45 degrees, a jaw without width would meet the side root 2 times as far away; one
     * 10 wide meets it with its corner, 5 nearer. */
    made = bench(0);
    Record *record = record_copy(plate_find(made.plate, made.clamp), made.clamp);
    double root = sqrt(2);
    record->fitting.rotation = 225 * ANGLE_DEGREE;
    record->fitting.at = (Place){MM(60), MM(50 + 11 / root + 0.5)};
    change_record(made.plate, record);
    /* The corner is 6 / root + 5 / root below the middle, and 0.5 above the side. */
    expect_findings(made.plate, "clamp-travel", LEVEL_STOP, 0, 0);
}

static void test_clamp_height(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        /* 0.1 below the top of 3 mm; 1.5 deeper in a nest, 1.5 lower. */
        Bench made = bench(0.5);
        change_clamp(&made, 2.9 + fails * UM, 0);
        expect_findings(made.plate, "clamp-height", LEVEL_CAUTION, fails, 0.1 - UM);
        made = bench(0.5);
        put_nest(made.plate, made.station, 0.2, 1.5);
        change_clamp(&made, 1.4 + fails * UM, 0);
        expect_findings(made.plate, "clamp-height", LEVEL_CAUTION, fails, 0.1 - UM);
        /* Half a millimetre of grip, from the face up. */
        made = bench(0.5);
        change_clamp(&made, 0.5 - fails * UM, 0);
        expect_findings(made.plate, "clamp-height", LEVEL_STOP, fails, 0.5 - UM);
    }
    Bench made = bench(0.5);
    change_clamp(&made, 4, 0);
    expect_findings(made.plate, "clamp-height", LEVEL_CAUTION, 1, -1);
}

/* Euler's strut 10 wide, 1 thick and 20 long, of 205 kN/mm2 by 1 / (1 - 0.09) for a plate: by hand
 * 9.8696044 x 205000 x (10 / 12) / 0.91 / 400 = 4632.026 N; a quarter of it is 1158.006 N. */
static void test_clamp_bows(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(0.5);
        give_blank(&made, 0, 20, 1, "1095");
        change_clamp(&made, 0.9, fails ? 1159 : 1158);
        expect_findings(made.plate, "clamp-bows", LEVEL_CAUTION, fails, 4632.0259 / 1159);
    }
    /* Of a material that nobody knows nothing is said. */
    Bench made = bench(0.5);
    give_blank(&made, 0, 20, 1, "bell metal");
    change_clamp(&made, 0.9, 100000);
    expect_findings(made.plate, "clamp-bows", LEVEL_CAUTION, 0, 0);
}

static void test_clamp_backing(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        /* The nest's wall is at 30 - 0.2, a slot's upper side 2 below it. */
        Bench made = bench(0.5);
        put_nest(made.plate, made.station, 0.2, 1.5);
        put_slot(made.plate, 50, 30 - 0.2 - 2 - 5 + fails * UM, 30, 10, 4);
        expect_findings(made.plate, "clamp-backing", LEVEL_CAUTION, fails, 2 - UM);
        /* The nest is deep enough. */
        made = bench(0.5);
        put_nest(made.plate, made.station, 0.2, 0.5 - fails * UM);
        expect_findings(made.plate, "clamp-backing", LEVEL_CAUTION, fails, 0.5 - UM);
        /* The plate's edge is 2 behind the wall. */
        made = bench(0.5);
        put_nest(made.plate, made.station, 0.2, 1.5);
        Record *record = record_copy(plate_find(made.plate, made.station), made.station);
        record->station.at.y = MM(2.2 - fails * UM);
        change_record(made.plate, record);
        record = record_copy(plate_find(made.plate, made.clamp), made.clamp);
        record->fitting.at.y = MM(22.2 + 0.5 + 6);
        change_record(made.plate, record);
        expect_findings(made.plate, "clamp-backing", LEVEL_CAUTION, fails, 2 - UM);
    }
    /* Without a nest, nothing; a locator is something. */
    expect_findings(bench(0.5).plate, "clamp-backing", LEVEL_CAUTION, 1, 0);
    Bench made = bench(0.5);
    put_pin(made.plate, made.station, 0, 20, 10, FITTING_DOWEL, 5);
    expect_findings(made.plate, "clamp-backing", LEVEL_CAUTION, 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_clamp_travel),  cmocka_unit_test(test_nearest_blank),
        cmocka_unit_test(test_clamp_height),  cmocka_unit_test(test_clamp_bows),
        cmocka_unit_test(test_clamp_backing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
