/* The rules about nests: each with a case that just passes and one that just fails, 1 um apart. The
 * plate is 200 x 100 x 20 mm; a part of 50 x 20 x 3 lies at (60, 30), its blank 2 larger all round.
 */
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define UM 0.001

static Plate *with_nest(int kind, double depth)
{
    Plate *plate = plate_new(MM(200), MM(100), MM(20), PLATE_MM);
    FeatureId part = put_part(plate, 50, 20, 3, 0, NULL);
    Record *record = record_copy(plate_find(plate, part), part);
    record->part.blank = (Blank){{-MM(2), -MM(2)}, MM(54), MM(24), MM(3)};
    change_record(plate, record);
    FeatureId station = put_station(plate, part, 60, 30);
    FeatureId nest = put_nest(plate, station, 0.5, depth);
    Record *changed = record_copy(plate_find(plate, nest), nest);
    changed->recess.kind = kind;
    change_record(plate, changed);
    return plate;
}

static Plate *with_slot(Plate *plate, double x, double y, double length, double width, double depth)
{
    put_slot(plate, x, y, length, width, depth);
    return plate;
}

static void test_part_is_gripped(void **state)
{
    expect_findings(with_nest(RECESS_NEST, 2), "lift-out", LEVEL_CAUTION, 0, 0);
    expect_findings(with_nest(RECESS_NEST, 2 + UM), "lift-out", LEVEL_CAUTION, 1, 1 - UM);
    /* A finger beside it, under it, and out over the wall. */
    expect_findings(with_slot(with_nest(RECESS_NEST, 3), 85, 30, 12, 12, 4), "lift-out",
                    LEVEL_CAUTION, 0, 0);
    expect_findings(with_slot(with_nest(RECESS_NEST, 3), 85, 30, 12, 12 - UM, 4), "lift-out",
                    LEVEL_CAUTION, 1, 0);
    expect_findings(with_slot(with_nest(RECESS_NEST, 3), 85, 40, 12, 12, 4), "lift-out",
                    LEVEL_CAUTION, 1, 0);
}

static void test_chips_get_out(void **state)
{
    expect_findings(with_nest(RECESS_NEST, 2), "chip-trap", LEVEL_NOTE, 1, 0);
    Plate *plate = with_nest(RECESS_NEST, 2);
    put_hole(plate, 80, 40, 3);
    expect_findings(plate, "chip-trap", LEVEL_CAUTION, 0, 0);
    plate = with_nest(RECESS_NEST, 2);
    put_hole(plate, 80, 40, 3 - UM);
    expect_findings(plate, "chip-trap", LEVEL_CAUTION, 1, 3 - UM);
    /* Out over the front edge; a slot that ends before it leads nowhere. */
    plate = with_nest(RECESS_NEST, 2);
    Record *record =
        record_copy(plate_find(plate, put_slot(plate, 80, 15, 50, 6, 3)), plate_next_id(plate) - 1);
    record->recess.rotation = 90 * ANGLE_DEGREE;
    change_record(plate, record);
    expect_findings(plate, "chip-trap", LEVEL_NOTE, 0, 0);
    expect_findings(with_slot(with_nest(RECESS_NEST, 2), 80, 30, 20, 6, 3), "chip-trap", LEVEL_NOTE,
                    1, 0);
}

/* A pin in it stops a hole up. */
static void test_pinned_hole_is_no_drain(void **state)
{
    Plate *plate = with_nest(RECESS_NEST, 2);
    FeatureId station = ID_NONE;
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (plate_at(plate, i)->kind == RECORD_STATION)
            station = plate_at(plate, i)->id;
    put_pin(plate, station, 0, 20, 10, FITTING_DOWEL, 5);
    expect_findings(plate, "chip-trap", LEVEL_NOTE, 1, 0);
}

/* Grooves along all four walls of the blank's nest, `in` mm further in than flush with the walls,
 * `deeper` than its floor. A groove as wide as this reaches its width less the nest's clearance of
 * 0.5 under the blank. */
static Plate *with_grooves(double width, double in, double deeper)
{
    Plate *plate = with_nest(RECESS_BLANK_NEST, 2);
    const double x0 = 57.5, y0 = 27.5, x1 = 112.5, y1 = 52.5, half = width / 2;
    put_slot(plate, 85, y0 + half + in, x1 - x0, width, 2 + deeper);
    put_slot(plate, 85, y1 - half - in, x1 - x0, width, 2 + deeper);
    for (int i = 0; i < 2; i++) {
        FeatureId slot =
            put_slot(plate, i ? x1 - half - in : x0 + half + in, 40, y1 - y0, width, 2 + deeper);
        Record *record = record_copy(plate_find(plate, slot), slot);
        record->recess.rotation = 90 * ANGLE_DEGREE;
        change_record(plate, record);
    }
    return plate;
}

static void test_burr_has_room(void **state)
{
    expect_findings(with_nest(RECESS_BLANK_NEST, 2), "nest-burr", LEVEL_NOTE, 1, 0);
    /* Profiled parts have no sawn edges. */
    expect_findings(with_nest(RECESS_NEST, 2), "nest-burr", LEVEL_NOTE, 0, 0);
    expect_findings(with_grooves(1, 0, 0.3), "nest-burr", LEVEL_CAUTION, 0, 0);
    expect_findings(with_grooves(1, 0, 0.3 - UM), "nest-burr", LEVEL_CAUTION, 1, 0.3 - UM);
    expect_findings(with_grooves(1, -UM, 0.3), "nest-burr", LEVEL_CAUTION, 1, 0.5 - UM);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_part_is_gripped),
        cmocka_unit_test(test_chips_get_out),
        cmocka_unit_test(test_pinned_hole_is_no_drain),
        cmocka_unit_test(test_burr_has_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
