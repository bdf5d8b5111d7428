/* A new plate from a maker's few answers. */
#include "session/new-plate.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static NewPlate answers(void)
{
    return (NewPlate){
        .name = "Blades",
        .shop = "Nursery Tool Shop",
        .material = "",
        .length = MM(200),
        .width = MM(150),
        .thickness = MM(20),
        .unit = PLATE_MM,
        .projection = PROJECTION_FIRST,
        .metal = METAL_STEEL,
        .base = NEW_BASE_PINS,
        .base_name = "Mill base 1",
        .round_pin = {MM(20), MM(75)},
        .relieved_pin = {MM(180), MM(75)},
        .round_diameter = MM(10),
        .relieved_diameter = MM(8),
        .pin_depth = MM(10),
        .pull_downs = 4,
        .pull_down_inset = MM(20),
        .pull_down_diameter = MM(6),
        .clear_diameter = MM(16),
        .clear_name = "pull-down of the base",
        .datum = {.kind = DATUM_CORNER, .corner = CORNER_BACK_LEFT},
    };
}

static uint32_t count_kind(const Plate *plate, RecordKind kind)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < plate_count(plate); i++)
        count += plate_at(plate, i)->kind == kind;
    return count;
}

static void test_all_answers_are_kept(void **state)
{
    NewPlate asked = answers();
    Plate *plate = new_plate_make(&asked, NULL);
    const Settings *settings = plate_settings(plate);
    assert_string_equal(settings->name, "Blades");
    assert_string_equal(settings->shop, "Nursery Tool Shop");
    assert_null(settings->stock.material);
    assert_int_equal(settings->stock.metal, METAL_STEEL);
    assert_int_equal(settings->projection, PROJECTION_FIRST);
    assert_int_equal(settings->standard, SHEET_STANDARD_ISO);
    assert_int_equal(plate_datum(plate).x, 0);
    assert_int_equal(plate_datum(plate).y, MM(150));
    const Base *base = &plate_find(plate, plate_first_base(plate))->base;
    assert_int_equal(base->seats.count, 6);
    assert_int_equal(LIST_AT(&base->seats, BaseSeat, 3)->at.x, MM(180));
    assert_int_equal(LIST_AT(&base->seats, BaseSeat, 3)->at.y, MM(130));
    assert_int_equal(count_kind(plate, RECORD_KEEP_CLEAR), 4);
    plate_free(plate);
}

/* What it keeps clear, and the way round it seats, are true for the checks from the first moment:
 * nothing is wrong with a plate that has just been made. */
static void test_nothing_is_found_on_it(void **state)
{
    NewPlate asked = answers();
    Plate *plate = new_plate_make(&asked, NULL);
    FindingList findings = findings_of(plate);
    assert_int_equal(findings.count, 0);
    finding_list_clear(&findings);
    plate_free(plate);
}

static void test_a_kept_base(void **state)
{
    NewPlate asked = answers();
    Plate *old = new_plate_make(&asked, NULL);
    asked.base = NEW_BASE_KEPT;
    asked.kept = old;
    Plate *plate = new_plate_make(&asked, NULL);
    const Record *base = plate_find(plate, plate_first_base(plate));
    const Record *kept = plate_find(old, plate_first_base(old));
    assert_true(schema_equal(&base_schema, &base->base, &kept->base));
    assert_int_equal(count_kind(plate, RECORD_KEEP_CLEAR), 4);
    plate_free(plate);
    plate_free(old);
}

static void refused(const NewPlate *asked, const char *place)
{
    Error error;
    assert_null(new_plate_make(asked, &error));
    assert_string_equal(error.place, place);
}

static void test_what_cannot_be(void **state)
{
    NewPlate asked = answers();
    asked.thickness = 0;
    refused(&asked, "stock");
    asked = answers();
    asked.round_pin.x = MM(-1);
    refused(&asked, "base");
    asked = answers();
    asked.relieved_pin = asked.round_pin;
    refused(&asked, "base");
    asked = answers();
    asked.base = NEW_BASE_KEPT;
    refused(&asked, "base");
    asked = answers();
    asked.datum = (Datum){.kind = DATUM_POINT, .at = {MM(201), 0}};
    refused(&asked, "datum");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_answers_are_kept),
        cmocka_unit_test(test_nothing_is_found_on_it),
        cmocka_unit_test(test_a_kept_base),
        cmocka_unit_test(test_what_cannot_be),
    };
    return cmocka_run_group_tests_name("new plate", tests, NULL, NULL);
}
