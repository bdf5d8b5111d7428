/* Things brought into line, evenly apart, turned, locked, repeated, measured, and drawn to guides.
 * The places that are expected are worked out by hand beside each. */
#include "session/arrange.h"
#include "session/measure.h"
#include "session/new-hardware.h"
#include "session/new-things.h"
#include "session/repeat.h"
#include "session/snap.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static Session *open_new(void)
{
    return session_new(plate_new(MM(200), MM(150), MM(20), PLATE_MM), NULL);
}

static void carry_out(Session *session, Edit *edit)
{
    Error error = {.kind = ERROR_NONE};
    if (!session_do(session, edit, &error))
        fail_msg("%s: %s", error.place, error.message);
    edit_clear(edit);
}

static FeatureId add_hole(Session *session, double x, double y, double diameter)
{
    Edit edit = EDIT_EMPTY;
    FeatureId id = new_drilled_hole(session, ID_TOP, (Place){MM(x), MM(y)}, MM(diameter), &edit);
    carry_out(session, &edit);
    return id;
}

static FeatureId add_slot(Session *session, double x, double y, double length, double width)
{
    Edit edit = EDIT_EMPTY;
    FeatureId id =
        new_slot(session, ID_TOP, (Place){MM(x), MM(y)}, MM(length), MM(width), MM(5), &edit);
    carry_out(session, &edit);
    return id;
}

/* A bar of 80 x 12 with two holes, its middle at the place. */
static FeatureId add_station(Session *session, double x, double y)
{
    const double holes[] = {5, 6, 6.5, 75, 6, 6.5};
    Edit edit = EDIT_EMPTY;
    Plate *other = plate_new(MM(10), MM(10), MM(10), PLATE_MM);
    FeatureId made = put_part(other, 80, 12, 3, 2, holes);
    FeatureId part = new_part(session, &plate_find(other, made)->part, &edit);
    FeatureId station = new_station(session, ID_TOP, (Place){MM(x), MM(y)}, part, &edit);
    carry_out(session, &edit);
    plate_free(other);
    return station;
}

static Place place_of(const Session *session, FeatureId id)
{
    return *record_place_const(plate_find(session_plate(session), id));
}

static void at(const Session *session, FeatureId id, double x, double y)
{
    Place place = place_of(session, id);
    assert_int_equal(place.x, MM(x));
    assert_int_equal(place.y, MM(y));
}

static void test_align(void **state)
{
    Session *session = open_new();
    FeatureId ids[] = {add_hole(session, 50, 40, 6), add_slot(session, 100, 60, 40, 12),
                       add_hole(session, 30, 90, 10)};
    Edit edit = EDIT_EMPTY;
    assert_true(arrange_align(session, ids, 3, ALIGN_LEFT, &edit, NULL));
    carry_out(session, &edit);
    /* The hole's left edge is at 47; the slot is 20 from its middle to its end. */
    at(session, ids[0], 50, 40);
    at(session, ids[1], 67, 60);
    at(session, ids[2], 52, 90);
    assert_true(arrange_align(session, ids, 3, ALIGN_CENTRE_Y, &edit, NULL));
    carry_out(session, &edit);
    at(session, ids[1], 67, 40);
    at(session, ids[2], 52, 40);
    assert_true(session_undo(session, NULL));
    at(session, ids[2], 52, 90);
    /* What stands in metal may be what the others are brought in line with, and never moves. */
    Record *made = record_copy(plate_find(session_plate(session), ids[0]), ids[0]);
    made->hole.made = true;
    edit_add(&edit, record_ref(plate_find(session_plate(session), ids[0])), made);
    carry_out(session, &edit);
    assert_true(arrange_align(session, ids, 3, ALIGN_BACK, &edit, NULL));
    carry_out(session, &edit);
    at(session, ids[1], 67, 37);
    at(session, ids[2], 52, 38);
    FeatureId other[] = {ids[1], ids[0]};
    Error error;
    assert_false(arrange_align(session, other, 2, ALIGN_FRONT, &edit, &error));
    assert_int_equal(error.kind, ERROR_CONFLICT);
    edit_clear(&edit);
    assert_false(arrange_align(session, ids, 1, ALIGN_LEFT, &edit, &error));
    edit_clear(&edit);
    session_free(session);
}

/* A whole station goes with what is cut for it, by the middle of its part. */
static void test_align_stations(void **state)
{
    Session *session = open_new();
    FeatureId ids[] = {add_station(session, 100, 30), add_station(session, 120, 100)};
    Edit edit = EDIT_EMPTY;
    assert_true(arrange_align(session, ids, 2, ALIGN_CENTRE_X, &edit, NULL));
    carry_out(session, &edit);
    at(session, ids[0], 60, 24);
    at(session, ids[1], 60, 94);
    session_free(session);
}

static void test_space(void **state)
{
    Session *session = open_new();
    FeatureId ids[] = {add_hole(session, 160, 20, 6), add_hole(session, 10, 30, 6),
                       add_hole(session, 20, 40, 8), add_hole(session, 90, 50, 6)};
    Edit edit = EDIT_EMPTY;
    assert_true(arrange_space(session, ids, 4, false, &edit, NULL));
    carry_out(session, &edit);
    /* From 10 to 160 in three equal pitches of 50. */
    at(session, ids[1], 10, 30);
    at(session, ids[2], 60, 40);
    at(session, ids[3], 110, 50);
    at(session, ids[0], 160, 20);
    assert_false(arrange_space(session, ids, 2, true, &edit, NULL));
    edit_clear(&edit);
    session_free(session);
}

static void test_turn(void **state)
{
    Session *session = open_new();
    FeatureId ids[] = {add_hole(session, 50, 40, 6), add_hole(session, 70, 40, 6),
                       add_slot(session, 60, 40, 30, 10)};
    Edit edit = EDIT_EMPTY;
    assert_true(arrange_turn(session, ids, 3, TURN_ALL, 90 * ANGLE_DEGREE, &edit, NULL));
    carry_out(session, &edit);
    at(session, ids[0], 60, 30);
    at(session, ids[1], 60, 50);
    at(session, ids[2], 60, 40);
    assert_int_equal(plate_find(session_plate(session), ids[2])->recess.rotation,
                     90 * ANGLE_DEGREE);
    assert_true(arrange_turn(session, ids, 3, TURN_EACH, 45 * ANGLE_DEGREE, &edit, NULL));
    carry_out(session, &edit);
    at(session, ids[0], 60, 30);
    assert_int_equal(plate_find(session_plate(session), ids[2])->recess.rotation,
                     135 * ANGLE_DEGREE);
    assert_true(arrange_turn(session, ids, 1, TURN_DATUM, 90 * ANGLE_DEGREE, &edit, NULL));
    carry_out(session, &edit);
    at(session, ids[0], -30, 60);
    session_free(session);
}

static void test_lock(void **state)
{
    Session *session = open_new();
    FeatureId ids[] = {add_hole(session, 50, 40, 6), add_slot(session, 100, 60, 40, 12)};
    Edit edit = EDIT_EMPTY;
    assert_false(arrange_all_locked(session, ids, 2));
    assert_true(arrange_lock(session, ids, 1, &edit, NULL));
    carry_out(session, &edit);
    assert_false(arrange_all_locked(session, ids, 2));
    assert_true(arrange_lock(session, ids, 2, &edit, NULL));
    assert_string_equal(edit.name, "Lock");
    carry_out(session, &edit);
    assert_true(arrange_all_locked(session, ids, 2));
    assert_false(arrange_turn(session, ids, 1, TURN_EACH, ANGLE_DEGREE, &edit, NULL));
    edit_clear(&edit);
    assert_true(arrange_lock(session, ids, 2, &edit, NULL));
    assert_string_equal(edit.name, "Unlock");
    carry_out(session, &edit);
    assert_false(record_locked(plate_find(session_plate(session), ids[0])));
    session_free(session);
}

static uint32_t count_kind(const Session *session, RecordKind kind)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < plate_count(session_plate(session)); i++)
        count += plate_at(session_plate(session), i)->kind == kind;
    return count;
}

static void test_repeat_grid(void **state)
{
    Session *session = open_new();
    FeatureId id = add_hole(session, 10, 10, 5);
    GArray *copies = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    RepeatGrid grid = {4, 3, MM(20), MM(-2.5)};
    Edit edit = EDIT_EMPTY;
    assert_true(repeat_grid(session, &id, 1, &grid, &edit, copies, NULL));
    carry_out(session, &edit);
    assert_int_equal(copies->len, 11);
    at(session, g_array_index(copies, FeatureId, 0), 30, 10);
    at(session, g_array_index(copies, FeatureId, 3), 10, 7.5);
    at(session, g_array_index(copies, FeatureId, 10), 70, 5);
    /* Alike, so they go by one letter: A1 to A12. */
    const Record *last = plate_find(session_plate(session), g_array_index(copies, FeatureId, 10));
    assert_string_equal(record_label(last), "A12");
    assert_true(session_undo(session, NULL));
    assert_int_equal(count_kind(session, RECORD_HOLE), 1);
    Error error;
    assert_false(
        repeat_grid(session, &id, 1, &(RepeatGrid){1, 1, MM(1), MM(1)}, &edit, NULL, &error));
    assert_int_equal(error.kind, ERROR_TYPED);
    edit_clear(&edit);
    assert_false(repeat_grid(session, &id, 1, &(RepeatGrid){2, 1, 0, MM(1)}, &edit, NULL, &error));
    edit_clear(&edit);
    assert_false(
        repeat_grid(session, &id, 1, &(RepeatGrid){1001, 1, MM(1), 0}, &edit, NULL, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    edit_clear(&edit);
    g_array_unref(copies);
    session_free(session);
}

/* A station is repeated with its holes and hardware. */
static void test_repeat_stations(void **state)
{
    Session *session = open_new();
    FeatureId id = add_station(session, 60, 20);
    Edit edit = EDIT_EMPTY;
    assert_true(repeat_grid(session, &id, 1, &(RepeatGrid){1, 5, 0, MM(20)}, &edit, NULL, NULL));
    carry_out(session, &edit);
    assert_int_equal(count_kind(session, RECORD_PART), 1);
    assert_int_equal(count_kind(session, RECORD_STATION), 5);
    assert_int_equal(count_kind(session, RECORD_HOLE), 10);
    assert_int_equal(count_kind(session, RECORD_FITTING), 10);
    session_free(session);
}

/* Six holes on a circle of 40 about 100, 75: at 60 degrees x is 100 + 40 / 2, y is
 * 75 + 40 x 0.866025404 = 109.641016. */
static void test_repeat_round(void **state)
{
    Session *session = open_new();
    FeatureId id = add_hole(session, 140, 75, 5);
    GArray *copies = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    RepeatRound round = {6, {MM(100), MM(75)}, ANGLE_TURN, true};
    Edit edit = EDIT_EMPTY;
    assert_true(repeat_round(session, &id, 1, &round, &edit, copies, NULL));
    carry_out(session, &edit);
    assert_int_equal(copies->len, 5);
    at(session, g_array_index(copies, FeatureId, 0), 120, 109.641016);
    at(session, g_array_index(copies, FeatureId, 2), 60, 75);
    /* Over a quarter the last one is at its end. */
    g_array_set_size(copies, 0);
    round = (RepeatRound){4, {MM(100), MM(75)}, 90 * ANGLE_DEGREE, true};
    assert_true(repeat_round(session, &id, 1, &round, &edit, copies, NULL));
    carry_out(session, &edit);
    at(session, g_array_index(copies, FeatureId, 2), 100, 115);
    g_array_unref(copies);
    session_free(session);
}

static void test_repeat_round_slots(void **state)
{
    Session *session = open_new();
    FeatureId id = add_slot(session, 140, 75, 30, 10);
    GArray *copies = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    RepeatRound round = {4, {MM(100), MM(75)}, ANGLE_TURN, true};
    Edit edit = EDIT_EMPTY;
    assert_true(repeat_round(session, &id, 1, &round, &edit, copies, NULL));
    carry_out(session, &edit);
    FeatureId quarter = g_array_index(copies, FeatureId, 0);
    at(session, quarter, 100, 115);
    assert_int_equal(plate_find(session_plate(session), quarter)->recess.rotation,
                     90 * ANGLE_DEGREE);
    g_array_set_size(copies, 0);
    round.turned = false;
    assert_true(repeat_round(session, &id, 1, &round, &edit, copies, NULL));
    carry_out(session, &edit);
    quarter = g_array_index(copies, FeatureId, 0);
    at(session, quarter, 100, 115);
    assert_int_equal(plate_find(session_plate(session), quarter)->recess.rotation, 0);
    g_array_unref(copies);
    session_free(session);
}

static void close_to(double seen, double wanted)
{
    if (fabs(seen - wanted) > 1e-9)
        fail_msg("%.12g, wanted %.12g", seen, wanted);
}

static void test_measure(void **state)
{
    Session *session = open_new();
    FeatureId hole = add_hole(session, 50, 40, 6), slot = add_slot(session, 100, 80, 40, 12);
    const Placed *placed = session_placed(session);
    Measured measured;
    Spot from = spot_of(placed, hole, true), to = spot_of(placed, slot, true);
    assert_true(measure_between(&from, &to, &measured));
    close_to(measured.distance, hypot(50, 40));
    close_to(measured.dx, 50);
    close_to(measured.dy, 40);
    /* Edge to edge: the slot's near end is a half circle of 6 about 86, 80; the hole's radius is 3.
     */
    from = spot_of(placed, hole, false);
    to = spot_of(placed, slot, false);
    assert_true(measure_between(&from, &to, &measured));
    close_to(measured.distance, hypot(36, 40) - 9);
    /* To the face's own left edge, from the edge of the hole and from its centre. */
    to = spot_at(placed, ID_TOP, (Point){0.4, 70}, 1);
    assert_int_equal(to.kind, SPOT_FACE_EDGE);
    assert_true(measure_between(&from, &to, &measured));
    close_to(measured.distance, 47);
    close_to(measured.dx, -47);
    from = spot_of(placed, hole, true);
    assert_true(measure_between(&from, &to, &measured));
    close_to(measured.distance, 50);
    /* Across the whole plate. */
    from = spot_at(placed, ID_TOP, (Point){200, 30}, 1);
    assert_true(measure_between(&from, &to, &measured));
    close_to(measured.distance, 200);
    session_free(session);
}

static void test_what_is_meant(void **state)
{
    Session *session = open_new();
    FeatureId hole = add_hole(session, 50, 40, 6);
    const Placed *placed = session_placed(session);
    Spot spot = spot_at(placed, ID_TOP, (Point){50.5, 40}, 1);
    assert_int_equal(spot.kind, SPOT_CENTRE);
    assert_int_equal(spot.feature, hole);
    spot = spot_at(placed, ID_TOP, (Point){53.5, 40}, 1);
    assert_int_equal(spot.kind, SPOT_EDGE);
    assert_int_equal(spot.feature, hole);
    spot = spot_at(placed, ID_TOP, (Point){80, 80}, 1);
    assert_int_equal(spot.kind, SPOT_POINT);
    Spot nothing = spot_of(placed, 999, false);
    Measured measured;
    assert_false(measure_between(&spot, &nothing, &measured));
    session_free(session);
}

static void test_guides(void **state)
{
    Session *session = open_new();
    Guides guides = {.count = 0};
    SnapSettings settings = {.grid = 5, .reach = 1, .features = true, .guides = &guides};
    guides_add(&guides, (Guide){ID_TOP, true, MM(33.3)});
    guides_add(&guides, (Guide){ID_TOP, false, MM(71.7)});
    guides_add(&guides, (Guide){ID_TOP, true, MM(33.3)});
    assert_int_equal(guides.count, 2);
    Snap snap = snap_place(session, ID_TOP, (Place){MM(34), MM(71)}, NULL, 0, &settings);
    assert_true(snap.on_x && snap.on_y);
    assert_int_equal(snap.at.x, MM(33.3));
    assert_int_equal(snap.at.y, MM(71.7));
    /* Out of reach, or of another face, it is the grid. */
    snap = snap_place(session, ID_TOP, (Place){MM(36), MM(60.1)}, NULL, 0, &settings);
    assert_int_equal(snap.at.x, MM(35));
    assert_int_equal(guides_near(&guides, ID_TOP, (Place){MM(33), MM(10)}, MM(1)), 0);
    assert_int_equal(guides_near(&guides, 7, (Place){MM(33), MM(10)}, MM(1)), -1);
    guides_remove(&guides, 0);
    assert_int_equal(guides.count, 1);
    for (int i = 0; i < GUIDES_MOST + 3; i++)
        guides_add(&guides, (Guide){ID_TOP, true, MM(i)});
    assert_int_equal(guides.count, GUIDES_MOST);
    session_free(session);
}

/* A pin and a clamp come with what is cut for them, and go with it. The clamp's figures are the row
 * of our own generic table; the pin is 6 m6, 6.004 to 6.012 (ISO 8734). */
static void test_hardware(void **state)
{
    Session *session = open_new();
    Edit edit = EDIT_EMPTY;
    FeatureId slot = new_edge_clamp(session, ID_TOP, (Place){MM(100), MM(75)},
                                    clamp_find("edge clamp 8 mm", NULL), &edit);
    carry_out(session, &edit);
    const Recess *recess = &plate_find(session_plate(session), slot)->recess;
    assert_int_equal(recess->width, MM(16.1));
    assert_int_equal(recess->depth, MM(5));
    assert_true(recess->length > MM(20) + MM(16.1));
    Hole hole = {.face = ID_TOP};
    Step *step = list_append(&hole.steps, Step);
    *step = (Step){.kind = STEP_REAM, .diameter = MM(6), .through = true};
    FeatureId id =
        new_pin(session, ID_TOP, (Place){MM(40), MM(40)}, &hole, dowel_find("6mm", NULL), &edit);
    carry_out(session, &edit);
    schema_clear(&hole_schema, &hole);
    bool found = false;
    for (uint32_t i = 0; i < plate_count(session_plate(session)); i++) {
        const Record *record = plate_at(session_plate(session), i);
        if (record->kind != RECORD_FITTING || record->fitting.kind != FITTING_DOWEL)
            continue;
        found = true;
        assert_int_equal(record->fitting.hole, id);
        assert_int_equal(record->fitting.diameter + record->fitting.lower, MM(6.004));
        assert_int_equal(record->fitting.diameter + record->fitting.upper, MM(6.012));
    }
    assert_true(found);
    assert_int_equal(count_kind(session, RECORD_FITTING), 2);
    session_free(session);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_align),
        cmocka_unit_test(test_align_stations),
        cmocka_unit_test(test_space),
        cmocka_unit_test(test_turn),
        cmocka_unit_test(test_lock),
        cmocka_unit_test(test_repeat_grid),
        cmocka_unit_test(test_repeat_stations),
        cmocka_unit_test(test_repeat_round),
        cmocka_unit_test(test_repeat_round_slots),
        cmocka_unit_test(test_measure),
        cmocka_unit_test(test_what_is_meant),
        cmocka_unit_test(test_guides),
        cmocka_unit_test(test_hardware),
    };
    return cmocka_run_group_tests_name("arrange", tests, NULL, NULL);
}
