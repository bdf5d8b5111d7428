/* Whole plans: tools, settings, order. */
#include "shopplan/corner.h"
#include "shopplan/shopplan.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static Shopplan *plan_of(const Plate *plate)
{
    Placed *placed = placed_new(plate);
    Shopplan *plan = shopplan_new(plate, placed);
    placed_free(placed);
    return plan;
}

static Step *new_step(Record *record, int kind, double diameter, double depth)
{
    Step *step = list_append(&record->hole.steps, Step);
    step->kind = kind;
    step->diameter = MM(diameter);
    step->depth = MM(depth);
    step->through = depth <= 0;
    return step;
}

static Record *hole_at(Plate *plate, double x, double y)
{
    Record *record = record_new(plate_new_id(plate), RECORD_HOLE);
    record->hole.face = ID_TOP;
    record->hole.at = (Place){MM(x), MM(y)};
    return record;
}

/* Drilled 7.8 and reamed 8, through. */
static FeatureId put_reamed(Plate *plate, double x, double y)
{
    Record *record = hole_at(plate, x, y);
    new_step(record, STEP_DRILL, 7.8, 0);
    new_step(record, STEP_REAM, 8, 0)->upper = 15 * LENGTH_UM;
    return put_record(plate, record);
}

/* Drilled 5 through, tapped M6 12 deep. */
static FeatureId put_tapped(Plate *plate, double x, double y)
{
    Record *record = hole_at(plate, x, y);
    new_step(record, STEP_DRILL, 5, 0);
    new_step(record, STEP_TAP, 6, 12)->thread = g_strdup("M6");
    return put_record(plate, record);
}

/* Drilled 6.6 through, counterbored 11 by 6.5. */
static FeatureId put_bored(Plate *plate, double x, double y)
{
    Record *record = hole_at(plate, x, y);
    new_step(record, STEP_DRILL, 6.6, 0);
    new_step(record, STEP_COUNTERBORE, 11, 6.5);
    return put_record(plate, record);
}

static Plate *usual_plate(void)
{
    Plate *plate = plate_new(MM(200), MM(150), MM(20), PLATE_MM);
    for (int i = 0; i < 4; i++) {
        put_tapped(plate, 20 + 40 * i, 20);
        put_bored(plate, 20 + 40 * i, 130);
    }
    put_reamed(plate, 10, 75);
    put_reamed(plate, 190, 75);
    put_slot(plate, 100, 75, 40, 14, 8);
    return plate;
}

static void test_tools_in_order(void **unused)
{
    static const char *const expected[] = {
        "spot drill 6 mm, point 90 deg",
        "drill 6.6 mm, point 118 deg",
        "drill 7.8 mm, point 118 deg",
        "drill 5 mm, point 118 deg",
        "counterbore 11 mm",
        "reamer 8 mm +0.015/0",
        "tap M6, plug",
        "cutter, 14 mm at the most",
    };
    Plate *plate = usual_plate();
    Shopplan *plan = plan_of(plate);
    assert_int_equal(plan->tool_count, G_N_ELEMENTS(expected));
    for (uint32_t i = 0; i < plan->tool_count; i++) {
        char text[TOOL_TEXT];
        assert_string_equal(tool_text(&plan->tools[i], PLATE_MM, text), expected[i]);
        assert_int_equal(plan->tools[i].number, i + 1);
    }
    assert_int_equal(plan->setting_count, 1);
    assert_int_equal(plan->settings[0].changes, 7);
    assert_int_equal(plan->settings[0].tool_count, 8);
    assert_true(plan->settings[0].fewest);
    assert_int_equal(plan->settings[0].close_count, 2);
    /* Ten holes with a spot and two steps each, and a slot. */
    assert_int_equal(plan->settings[0].step_count, 31);
    assert_int_equal(plan->remarks->len, 0);
    shopplan_free(plan);
    plate_free(plate);
}

static bool is_remarked_on(const Shopplan *plan, const Record *record)
{
    char name[NAME_TEXT];
    shopplan_name(record, name);
    for (guint i = 0; i < plan->remarks->len; i++)
        if (g_str_has_prefix(plan->remarks->pdata[i], name))
            return true;
    return false;
}

/* Each hole's steps in its own order, each once. */
static void assert_whole(const Plate *plate, const Shopplan *plan)
{
    for (uint32_t r = 0; r < plate_count(plate); r++) {
        const Record *record = plate_at(plate, r);
        if (record->kind != RECORD_HOLE || record->hole.made)
            continue;
        int32_t next = 0;
        uint32_t spots = 0;
        for (uint32_t s = 0; s < plan->setting_count; s++)
            for (uint32_t i = 0; i < plan->settings[s].step_count; i++) {
                const PlanStep *step = &plan->settings[s].steps[i];
                if (step->feature != record->id)
                    continue;
                if (step->hole_step < 0) {
                    assert_int_equal(next, 0);
                    spots++;
                } else {
                    assert_int_equal(step->hole_step, next);
                    next++;
                }
            }
        if (spots == 0 && next == 0) { /* said to lie where there is no metal */
            assert_true(is_remarked_on(plan, record));
            continue;
        }
        assert_int_equal(next, record->hole.steps.count);
        assert_int_equal(spots, 1);
    }
}

static void assert_changes(const Setting *setting)
{
    uint32_t changes = 0;
    for (uint32_t i = 1; i < setting->step_count; i++)
        changes += setting->steps[i].tool != setting->steps[i - 1].tool;
    assert_int_equal(changes, setting->changes);
}

/* With each tool the close-tolerance holes come first and stand together. */
static void assert_close_together(const Setting *setting)
{
    for (uint32_t i = 1; i < setting->step_count; i++)
        if (setting->steps[i].tool == setting->steps[i - 1].tool && setting->steps[i].close)
            assert_true(setting->steps[i - 1].close);
}

static void test_every_step_once(void **unused)
{
    Plate *plate = usual_plate();
    Shopplan *plan = plan_of(plate);
    assert_whole(plate, plan);
    assert_changes(&plan->settings[0]);
    assert_close_together(&plan->settings[0]);
    shopplan_free(plan);
    plate_free(plate);
    for (uint32_t seed = 1; seed <= 20; seed++) {
        plate = random_plate(seed, 120);
        plan = plan_of(plate);
        assert_whole(plate, plan);
        for (uint32_t s = 0; s < plan->setting_count; s++) {
            assert_changes(&plan->settings[s]);
            assert_close_together(&plan->settings[s]);
        }
        shopplan_free(plan);
        plate_free(plate);
    }
}

static void test_made_is_left_out(void **unused)
{
    Plate *plate = plate_new(MM(100), MM(100), MM(20), PLATE_MM);
    Record *record = hole_at(plate, 50, 50);
    new_step(record, STEP_DRILL, 5, 0);
    record->hole.made = true;
    put_record(plate, record);
    Shopplan *plan = plan_of(plate);
    assert_int_equal(plan->setting_count, 0);
    assert_int_equal(plan->tool_count, 0);
    shopplan_free(plan);
    plate_free(plate);
}

static FeatureId put_operation(Plate *plate, const char *name, int kind, int order)
{
    Record *record = record_new(plate_new_id(plate), RECORD_OPERATION);
    record->operation.name = g_strdup(name);
    record->operation.kind = kind;
    record->operation.order = order;
    record->operation.face = ID_TOP;
    return put_record(plate, record);
}

static void claim(Plate *plate, FeatureId hole, FeatureId operation)
{
    Record *record = record_copy(plate_find(plate, hole), hole);
    record->hole.operation = operation;
    change_record(plate, record);
}

static void test_settings(void **unused)
{
    Plate *plate = plate_new(MM(200), MM(150), MM(20), PLATE_MM);
    FeatureId second = put_operation(plate, "second", OPERATION_MAKING, 2);
    FeatureId first = put_operation(plate, "first", OPERATION_MAKING, 1);
    FeatureId running = put_operation(plate, "profile", OPERATION_RUNNING, 0);
    FeatureId a = put_reamed(plate, 20, 20), b = put_reamed(plate, 60, 20);
    FeatureId c = put_tapped(plate, 90, 20);
    claim(plate, a, first);
    claim(plate, b, second);
    claim(plate, c, running);
    Shopplan *plan = plan_of(plate);
    assert_int_equal(plan->setting_count, 3);
    assert_int_equal(plan->settings[0].operation, first);
    assert_int_equal(plan->settings[0].steps[0].feature, a);
    assert_int_equal(plan->settings[1].operation, second);
    assert_int_equal(plan->settings[2].operation, ID_NONE);
    assert_ptr_equal(shopplan_setting(plan, second, ID_TOP), &plan->settings[1]);
    assert_null(shopplan_setting(plan, running, ID_TOP));
    /* Two reamed holes in two settings are worth a word. */
    assert_int_equal(plan->remarks->len, 1);
    assert_non_null(strstr(plan->remarks->pdata[0], "2 settings"));
    shopplan_free(plan);
    claim(plate, b, first);
    plan = plan_of(plate);
    assert_int_equal(plan->remarks->len, 0);
    shopplan_free(plan);
    plate_free(plate);
}

/* A tapped hole counts as close once a shoulder screw stands in it. */
static void test_locator_makes_close(void **unused)
{
    static const double holes[] = {10, 10, 5};
    Plate *plate = plate_new(MM(200), MM(150), MM(20), PLATE_MM);
    FeatureId part = put_part(plate, 60, 20, 3, 1, holes);
    FeatureId station = put_station(plate, part, 50, 50);
    put_pin(plate, station, 1, 10, 10, FITTING_HOLD_DOWN, 4.9);
    Shopplan *plan = plan_of(plate);
    assert_int_equal(plan->settings[0].close_count, 0);
    shopplan_free(plan);
    put_pin(plate, station, 1, 30, 10, FITTING_DOWEL, 4.9);
    plan = plan_of(plate);
    assert_int_equal(plan->settings[0].close_count, 1);
    shopplan_free(plan);
    plate_free(plate);
}

/* A rectangle's cutter is twice its corner radius, an obround's its width. A square part's nest
 * with 0.5 mm of clearance has corners of that radius; one with corners of 3 mm has 3.5 mm. */
static void test_corners(void **unused)
{
    Pose pose = POSE_IDENTITY;
    Shape shape = shape_rectangle(pose, 40, 20, 4);
    assert_true(fabs(corner_cutter(&shape) - 8) < 1e-9);
    shape = shape_obround((Point){0, 0}, (Point){30, 0}, 14);
    assert_true(fabs(corner_cutter(&shape) - 14) < 1e-9);
    static const Vertex square[] = {{0, 0, 0}, {40, 0, 0}, {40, 20, 0}, {0, 20, 0}};
    size_t starts[] = {0, 4};
    Outline *outline = outline_new(square, starts, 1, NULL);
    shape = shape_outline(outline, pose, 0.5);
    assert_true(fabs(corner_cutter(&shape) - 1) < 1e-9);
    shape.growth = 0;
    assert_true(corner_cutter(&shape) == 0);
    outline_unref(outline);
    double s = 3 * (1 - cos(G_PI / 4));
    const Vertex rounded[] = {{3, 0, 0},   {37, 0, s}, {40, 3, 0}, {40, 17, s},
                              {37, 20, 0}, {3, 20, s}, {0, 17, 0}, {0, 3, s}};
    starts[1] = 8;
    outline = outline_new(rounded, starts, 1, NULL);
    shape = shape_outline(outline, pose, 0.5);
    assert_true(fabs(corner_cutter(&shape) - 7) < 1e-9);
    outline_unref(outline);
}

static FeatureId put_pocket(Plate *plate, FeatureId operation, bool made)
{
    Record *record = record_new(plate_new_id(plate), RECORD_RECESS);
    record->recess.face = ID_TOP;
    record->recess.at = (Place){MM(50), MM(50)};
    record->recess.length = MM(40);
    record->recess.width = MM(20);
    record->recess.depth = MM(8);
    record->recess.operation = operation;
    record->recess.made = made;
    return put_record(plate, record);
}

/* A hole in a slot that is there already is spotted on the slot's floor; in one that is milled
 * after it, on the face. Slots 8 mm deep; a spot for a 5 mm drill is 2 mm deep. */
static void test_hole_in_a_slot(void **unused)
{
    static const struct {
        bool made;
        int slot_first;
        double tip;
    } cases[] = {{true, 0, 10}, {false, 0, 2}, {false, 1, 10}};
    for (size_t i = 0; i < G_N_ELEMENTS(cases); i++) {
        Plate *plate = plate_new(MM(100), MM(100), MM(20), PLATE_MM);
        FeatureId first = put_operation(plate, "first", OPERATION_MAKING, 1);
        FeatureId second = put_operation(plate, "second", OPERATION_MAKING, 2);
        put_pocket(plate, cases[i].slot_first ? first : second, cases[i].made);
        FeatureId hole = put_hole(plate, 40, 50, 5);
        claim(plate, hole, cases[i].slot_first ? second : first);
        put_hole(plate, 90, 90, 5); /* elsewhere */
        Shopplan *plan = plan_of(plate);
        const Setting *setting =
            shopplan_setting(plan, cases[i].slot_first ? second : first, ID_TOP);
        assert_non_null(setting);
        assert_true(fabs(setting->steps[0].tip - cases[i].tip) < 1e-9);
        assert_true(fabs(setting->steps[1].tip - (21 + 5 * 0.30043)) < 1e-3);
        shopplan_free(plan);
        plate_free(plate);
    }
}

static void test_remarks(void **unused)
{
    Plate *plate = plate_new(MM(100), MM(100), MM(20), PLATE_MM);
    Record *record = hole_at(plate, 50, 50);
    new_step(record, STEP_DRILL, 5, 12);
    new_step(record, STEP_TAP, 6, 12)->thread = g_strdup("M6");
    record->hole.label = g_strdup("B7");
    put_record(plate, record);
    Shopplan *plan = plan_of(plate);
    assert_int_equal(plan->remarks->len, 1);
    assert_non_null(strstr(plan->remarks->pdata[0], "B7: the drilled hole is too shallow"));
    shopplan_free(plan);
    plate_free(plate);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tools_in_order),      cmocka_unit_test(test_every_step_once),
        cmocka_unit_test(test_made_is_left_out),    cmocka_unit_test(test_settings),
        cmocka_unit_test(test_locator_makes_close), cmocka_unit_test(test_corners),
        cmocka_unit_test(test_hole_in_a_slot),      cmocka_unit_test(test_remarks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
