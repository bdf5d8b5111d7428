/* Operations set up by command: running a batch, making the plate, the base that plates share; and
 * what cutters a recess takes. */
#include "session/base-record.h"
#include "session/chain.h"
#include "session/inclined.h"
#include "session/new-things.h"
#include "session/recess-cutter.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void carry_out(Session *session, Edit *edit)
{
    Error error = {.kind = ERROR_NONE};
    if (!session_do(session, edit, &error))
        fail_msg("%s: %s", error.place, error.message);
    edit_clear(edit);
}

static const Record *find(const Session *session, FeatureId id)
{
    return plate_find(session_plate(session), id);
}

/* The operation of a kind that comes at a place in its order. */
static const Operation *operation_at(const Session *session, int kind, int order)
{
    for (uint32_t i = 0; i < plate_count(session_plate(session)); i++) {
        const Record *record = plate_at(session_plate(session), i);
        if (record->kind == RECORD_OPERATION && record->operation.kind == kind &&
            record->operation.order == order)
            return &record->operation;
    }
    return NULL;
}

static bool names(const List *list, FeatureId id)
{
    for (uint32_t i = 0; i < list->count; i++)
        if (*LIST_AT(list, FeatureId, i) == id)
            return true;
    return false;
}

typedef struct Shop {
    Session *session;
    FeatureId part, station, clamp, locator, hold_down, bevels[2];
} Shop;

/* A plate with one station on the top, its clamp, a front face and the pair of stations on it. */
static Shop open_shop(bool bevelled)
{
    const double holes[] = {4, 8, 4.2, 14, 12, 3.4};
    Shop shop;
    Plate *plate = plate_new(MM(200), MM(120), MM(20), PLATE_MM);
    shop.part = put_part(plate, 60, 16, 3, 2, holes);
    Record *record = record_copy(plate_find(plate, shop.part), shop.part);
    record->part.bevel.angle = bevelled ? angle_from_degrees(6.5) : 0;
    record->part.bevel.edge_thickness = MM(0.4);
    record->part.bevel.both_sides = true;
    record->part.bevel.from = (Place){MM(20), 0};
    record->part.bevel.to = (Place){MM(60), 0};
    change_record(plate, record);
    shop.station = put_station(plate, shop.part, 60, 80);
    shop.locator = put_pin(plate, shop.station, 1, 4, 8, FITTING_DOWEL, 4.19);
    shop.hold_down = put_pin(plate, shop.station, 2, 14, 12, FITTING_HOLD_DOWN, 3);
    shop.clamp = put_clamp(plate, ID_NONE, 90, 104, 270, 12, 20);
    shop.session = session_new(plate, NULL);
    if (bevelled) {
        Edit edit = EDIT_EMPTY;
        FeatureId face = new_inclined_face(shop.session, NULL, FALLS_TO_FRONT, MM(40),
                                           angle_from_degrees(6.5), &edit, NULL);
        carry_out(shop.session, &edit);
        assert_true(new_bevel_pair(shop.session, face, shop.part, shop.bevels, &edit, NULL));
        carry_out(shop.session, &edit);
    }
    return shop;
}

static void test_usual_chain(void **state)
{
    Edit edit = EDIT_EMPTY;
    Shop shop = open_shop(true);
    assert_true(new_running_chain(shop.session, &shop.station, 1, &edit, NULL));
    carry_out(shop.session, &edit);
    const Operation *holes = operation_at(shop.session, OPERATION_RUNNING, 1);
    const Operation *profile = operation_at(shop.session, OPERATION_RUNNING, 2);
    const Operation *first = operation_at(shop.session, OPERATION_RUNNING, 3);
    const Operation *other = operation_at(shop.session, OPERATION_RUNNING, 4);
    assert_true(holes && profile && first && other);
    assert_null(operation_at(shop.session, OPERATION_RUNNING, 5));
    assert_true(names(&holes->fitted, shop.clamp) && !names(&holes->fitted, shop.locator));
    assert_int_equal(holes->passes.count, 2);
    assert_int_equal(LIST_AT(&holes->passes, Pass, 0)->where, PASS_HOLES);
    assert_int_equal(LIST_AT(&holes->passes, Pass, 0)->cutter_diameter, MM(4.2));
    assert_true(names(&profile->fitted, shop.locator) && names(&profile->fitted, shop.hold_down));
    assert_false(names(&profile->fitted, shop.clamp));
    assert_int_equal(LIST_AT(&profile->passes, Pass, 0)->where, PASS_OUTLINE_OUTSIDE);
    assert_true(names(&first->stations, shop.bevels[0]) && first->stations.count == 1);
    assert_true(names(&other->stations, shop.bevels[1]) && other->stations.count == 1);
    assert_int_equal(first->face, find(shop.session, shop.bevels[0])->station.face);
    assert_int_equal(LIST_AT(&other->passes, Pass, 0)->where, PASS_BEVEL);
    /* One undo takes all of it back; set up twice it says so. */
    Error error = {.kind = ERROR_NONE};
    assert_false(new_running_chain(shop.session, &shop.station, 1, &edit, &error));
    assert_int_equal(error.kind, ERROR_CONFLICT);
    edit_clear(&edit);
    assert_true(session_undo(shop.session, NULL));
    assert_null(operation_at(shop.session, OPERATION_RUNNING, 1));
    session_free(shop.session);
}

static void test_chain_without_bevel(void **state)
{
    Edit edit = EDIT_EMPTY;
    Shop shop = open_shop(false);
    assert_true(new_running_chain(shop.session, &shop.station, 1, &edit, NULL));
    carry_out(shop.session, &edit);
    assert_non_null(operation_at(shop.session, OPERATION_RUNNING, 2));
    assert_null(operation_at(shop.session, OPERATION_RUNNING, 3));
    Error error = {.kind = ERROR_NONE};
    assert_false(new_running_chain(shop.session, NULL, 0, &edit, &error));
    assert_int_equal(error.kind, ERROR_MISSING);
    session_free(shop.session);
}

static Record *base_of(FeatureId id, const char *name, double x, double y)
{
    Record *record = record_new(id, RECORD_BASE);
    record->base.name = g_strdup(name);
    *list_append(&record->base.seats, BaseSeat) =
        (BaseSeat){.kind = BASE_ROUND_PIN, .at = {MM(10), MM(60)}, .diameter = MM(10)};
    *list_append(&record->base.seats, BaseSeat) =
        (BaseSeat){.kind = BASE_RELIEVED_PIN, .at = {MM(x), MM(y)}, .diameter = MM(10)};
    return record;
}

static void test_order_of_making(void **state)
{
    Edit edit = EDIT_EMPTY;
    Shop shop = open_shop(true);
    Record *base = base_of(session_new_id(shop.session), "Mill", 190, 60);
    edit_add(&edit, NULL, base);
    FeatureId seat = new_drilled_hole(shop.session, ID_TOP, (Place){MM(10), MM(60)}, MM(10), &edit);
    FeatureId other = new_drilled_hole(shop.session, ID_TOP, (Place){MM(30), MM(60)}, MM(5), &edit);
    carry_out(shop.session, &edit);
    assert_true(new_making_order(shop.session, &edit, NULL));
    carry_out(shop.session, &edit);
    FeatureId of_seat = find(shop.session, seat)->hole.operation;
    FeatureId of_other = find(shop.session, other)->hole.operation;
    FeatureId locator = find(shop.session, shop.locator)->fitting.hole;
    assert_int_equal(find(shop.session, of_seat)->operation.order, 1);
    assert_int_equal(find(shop.session, of_other)->operation.order, 2);
    assert_int_equal(find(shop.session, locator)->hole.operation, of_other);
    const Operation *inclined = operation_at(shop.session, OPERATION_MAKING, 3);
    assert_int_equal(inclined->face, find(shop.session, shop.bevels[0])->station.face);
    assert_null(operation_at(shop.session, OPERATION_MAKING, 4));
    assert_false(new_making_order(shop.session, &edit, NULL));
    session_free(shop.session);
}

static void test_base_is_shared(void **state)
{
    Edit edit = EDIT_EMPTY;
    Shop shop = open_shop(false);
    Plate *other = plate_new(MM(50), MM(50), MM(20), PLATE_MM);
    Error error = {.kind = ERROR_NONE};
    assert_false(share_base(shop.session, other, &edit, &error));
    assert_int_equal(error.kind, ERROR_MISSING);
    FeatureId id = put_record(other, base_of(plate_new_id(other), "Mill", 190, 60));
    assert_true(share_base(shop.session, other, &edit, NULL));
    carry_out(shop.session, &edit);
    FeatureId own = placed_base(session_placed(shop.session));
    assert_int_equal(find(shop.session, own)->base.seats.count, 2);
    assert_false(share_base(shop.session, other, &edit, &error));
    assert_int_equal(error.kind, ERROR_CONFLICT);
    /* The relieved pin is moved: the hole on it goes along, the one beside it stays. */
    FeatureId on = new_drilled_hole(shop.session, ID_TOP, (Place){MM(190), MM(60)}, MM(10), &edit);
    FeatureId by = new_drilled_hole(shop.session, ID_TOP, (Place){MM(180), MM(90)}, MM(5), &edit);
    carry_out(shop.session, &edit);
    change_record(other, base_of(id, "Mill", 188, 62));
    assert_true(share_base(shop.session, other, &edit, NULL));
    carry_out(shop.session, &edit);
    assert_int_equal(placed_base(session_placed(shop.session)), own);
    assert_int_equal(find(shop.session, on)->hole.at.x, MM(188));
    assert_int_equal(find(shop.session, on)->hole.at.y, MM(62));
    assert_int_equal(find(shop.session, by)->hole.at.x, MM(180));
    plate_free(other);
    session_free(shop.session);
}

/* The ends of a slot are as round as it is wide; a pocket's corners by their radius. */
static void test_cutters_of_a_recess(void **state)
{
    RecessCutter cutter;
    Plate *plate = plate_new(MM(100), MM(100), MM(30), PLATE_MM);
    FeatureId slot = put_slot(plate, 50, 50, 40, 6, 18);
    FeatureId deep = put_slot(plate, 50, 80, 40, 6, 18.000001);
    Session *session = session_new(plate, NULL);
    assert_true(recess_cutter(session_placed(session), slot, &cutter));
    assert_int_equal(cutter.largest, MM(6));
    assert_int_equal(cutter.depth, MM(18));
    assert_int_equal(cutter.smallest, MM(6));
    assert_true(cutter.usual);
    assert_true(recess_cutter(session_placed(session), deep, &cutter));
    assert_false(cutter.usual);
    assert_false(recess_cutter(session_placed(session), ID_TOP, &cutter));
    session_free(session);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_usual_chain),         cmocka_unit_test(test_chain_without_bevel),
        cmocka_unit_test(test_order_of_making),     cmocka_unit_test(test_base_is_shared),
        cmocka_unit_test(test_cutters_of_a_recess),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
