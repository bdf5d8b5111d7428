/* A new plate from a maker's few answers. */
#include "checks/rule.h"
#include "session/limit-preset.h"
#include "session/new-plate.h"
#include "session/new-things.h"
#include "session/session.h"
#include "support/plates.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

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
    /* Stock that ends at the further pin's middle takes it; a micrometre less does not. */
    asked.length = LIST_AT(&kept->base.seats, BaseSeat, 1)->at.x;
    plate = new_plate_make(&asked, NULL);
    assert_non_null(plate);
    plate_free(plate);
    asked.length -= LENGTH_UM;
    Error error;
    assert_null(new_plate_make(&asked, &error));
    assert_string_equal(error.place, "base");
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

/* A wall of 2.5 mm beside a hole of 2 mm, whose centre is 1.75 diameters from the edge: enough by
 * the usual limits (2 mm, 1.5 diameters), too little by walls half as much again. */
static void test_wider_limits(void **state)
{
    for (int preset = LIMIT_PRESET_USUAL; preset <= LIMIT_PRESET_WIDER; preset++) {
        NewPlate asked = answers();
        Edit edit = EDIT_EMPTY;
        Error error;
        asked.metal = METAL_ALUMINIUM;
        asked.base = NEW_BASE_NONE;
        asked.limits = preset;
        Session *session = session_new(new_plate_make(&asked, NULL), NULL);
        new_drilled_hole(session, ID_TOP, (Place){MM(100), MM(7) / 2}, MM(2), &edit);
        assert_true(session_do(session, &edit, &error));
        const FindingList *found = session_findings(session);
        assert_int_equal(found->count, preset == LIMIT_PRESET_WIDER ? 1 : 0);
        if (preset == LIMIT_PRESET_WIDER) {
            assert_string_equal(found->items[0].rule->slug, "edge-distance");
            assert_true(fabs(found->items[0].limit - 3) < 1e-9);
        }
        edit_clear(&edit);
        session_free(session);
    }
}

/* Each of the preset's limits is one that a rule has, and larger than it starts with. */
static void test_the_preset_names_limits_there_are(void **state)
{
    NewPlate asked = answers();
    asked.limits = LIMIT_PRESET_WIDER;
    Plate *plate = new_plate_make(&asked, NULL);
    const List *limits = &plate_settings(plate)->limits;
    assert_int_equal(limits->count, 8);
    for (uint32_t i = 0; i < limits->count; i++) {
        const ChangedLimit *changed = LIST_AT(limits, ChangedLimit, i);
        const Rule *rule = rule_by_slug(changed->rule);
        bool found = false;
        for (int k = 0; rule && k < rule->limit_count; k++)
            if (strcmp(rule->limits[k].name, changed->limit) == 0)
                found = (double)changed->value / 1e6 > rule->limits[k].starting;
        assert_true(found);
    }
    plate_free(plate);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_answers_are_kept),
        cmocka_unit_test(test_nothing_is_found_on_it),
        cmocka_unit_test(test_a_kept_base),
        cmocka_unit_test(test_what_cannot_be),
        cmocka_unit_test(test_wider_limits),
        cmocka_unit_test(test_the_preset_names_limits_there_are),
    };
    return cmocka_run_group_tests_name("new plate", tests, NULL, NULL);
}
