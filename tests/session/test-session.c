/* One open plate: editing, trying, dragging, copies, files and recovery. */
#include "session/drag.h"
#include "session/hit.h"
#include "session/new-things.h"
#include "session/selection.h"
#include "session/snap.h"
#include "support/plates.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static Session *open_new(void)
{
    return session_new(plate_new(MM(100), MM(80), MM(20), PLATE_MM), NULL);
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

static const Hole *hole_of(const Session *session, FeatureId id)
{
    return &plate_find_kind(session_plate(session), id, RECORD_HOLE)->hole;
}

/* A bar of 80 x 12 with three holes, the outer two 70 apart. */
static FeatureId add_station(Session *session, double x, double y)
{
    const double holes[] = {5, 6, 6.5, 75, 6, 6.5, 40, 6, 4.4};
    Edit edit = EDIT_EMPTY;
    Plate *other = plate_new(MM(10), MM(10), MM(10), PLATE_MM);
    FeatureId made = put_part(other, 80, 12, 3, 3, holes);
    FeatureId part = new_part(session, &plate_find(other, made)->part, &edit);
    FeatureId station = new_station(session, ID_TOP, (Place){MM(x), MM(y)}, part, &edit);
    carry_out(session, &edit);
    plate_free(other);
    return station;
}

static uint32_t count_kind(const Session *session, RecordKind kind)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < plate_count(session_plate(session)); i++)
        count += plate_at(session_plate(session), i)->kind == kind;
    return count;
}

static void test_drag_shows_and_drops(void **state)
{
    Session *session = open_new();
    FeatureId id = add_hole(session, 50, 40, 6);
    Drag *drag = drag_begin(session, &id, 1, NULL);
    assert_int_equal(session_findings(session)->count, 0);
    drag_move(drag, MM(-47.5), 0);
    const Finding *first = NULL;
    assert_int_equal(count_of(session_shown_findings(session), "outside-plate", &first), 1);
    /* The plate itself has not changed yet. */
    assert_int_equal(hole_of(session, id)->at.x, MM(50));
    assert_int_equal(session_findings(session)->count, 0);
    drag_move(drag, MM(-45), MM(10));
    assert_true(drag_drop(drag, NULL));
    assert_int_equal(hole_of(session, id)->at.x, MM(5));
    assert_int_equal(hole_of(session, id)->at.y, MM(50));
    /* Centre 5 mm from the edge, 1.2 diameters are 7.2; the wall of 2 mm is just enough. */
    assert_int_equal(count_of(session_findings(session), "edge-distance", &first), 1);
    assert_true(fabs(first->value - 5) < 1e-9 && fabs(first->limit - 7.2) < 1e-9);
    assert_true(session_undo(session, NULL));
    assert_int_equal(hole_of(session, id)->at.x, MM(50));
    assert_int_equal(session_findings(session)->count, 0);
    session_free(session);
}

static void test_cancelled_drag_leaves_no_trace(void **state)
{
    Session *session = open_new();
    FeatureId id = add_hole(session, 50, 40, 6);
    Drag *drag = drag_begin(session, &id, 1, NULL);
    drag_move(drag, MM(-48), 0);
    drag_cancel(drag);
    assert_false(session_is_trying(session));
    assert_int_equal(session_shown_findings(session)->count, 0);
    assert_true(session_undo(session, NULL));
    assert_false(session_can_undo(session));
    session_free(session);
}

/* A ghost that is not let go of on the plate: the next thing is numbered as if it had never been.
 */
static void test_cancelled_ghost_uses_no_numbers(void **state)
{
    Session *session = open_new();
    FeatureId last = add_station(session, 50, 40);
    FeatureId next = plate_next_id(session_plate(session));
    FeatureId part = plate_find(session_plate(session), last)->station.part;
    for (int i = 0; i < 3; i++) {
        Edit edit = EDIT_EMPTY;
        Place at = {MM(50), MM(60)};
        assert_int_not_equal(new_station(session, ID_TOP, at, part, &edit), ID_NONE);
        assert_true(plate_next_id(session_plate(session)) > next);
        Drag *drag = drag_begin_ghost(session, &edit, at);
        drag_move_to(drag, (Place){MM(55), MM(65)});
        drag_cancel(drag);
        assert_int_equal(plate_next_id(session_plate(session)), next);
    }
    /* A number that somebody was given meanwhile is not given again. */
    Edit edit = EDIT_EMPTY;
    Place at = {MM(50), MM(60)};
    FeatureId ghost = new_drilled_hole(session, ID_TOP, at, MM(5), &edit);
    FeatureId other = session_new_id(session);
    drag_cancel(drag_begin_ghost(session, &edit, at));
    assert_int_equal(ghost, next);
    assert_true(session_new_id(session) > other);
    /* Nor one that a record had, though it is undone now. */
    FeatureId undone = add_hole(session, 90, 70, 4);
    assert_true(session_undo(session, NULL));
    FeatureId after = new_drilled_hole(session, ID_TOP, at, MM(5), &edit);
    drag_cancel(drag_begin_ghost(session, &edit, at));
    assert_true(after > undone);
    assert_int_equal(session_new_id(session), after);
    session_free(session);
}

static void test_station_takes_its_things_along(void **state)
{
    Session *session = open_new();
    FeatureId id = add_station(session, 50, 40);
    assert_int_equal(count_kind(session, RECORD_HOLE), 3);
    assert_int_equal(count_kind(session, RECORD_FITTING), 3);
    /* The middle of the bar lies where it was asked: the outer holes at 15 and 85, on y = 40. */
    int at_15 = 0, at_85 = 0;
    for (uint32_t i = 0; i < plate_count(session_plate(session)); i++) {
        const Record *record = plate_at(session_plate(session), i);
        if (record->kind != RECORD_HOLE)
            continue;
        Pose pose = plate_pose(session_plate(session), record);
        at_15 += fabs(pose.x - 15) < 1e-9 && fabs(pose.y - 40) < 1e-9;
        at_85 += fabs(pose.x - 85) < 1e-9 && fabs(pose.y - 40) < 1e-9;
    }
    assert_int_equal(at_15, 1);
    assert_int_equal(at_85, 1);
    Edit edit = EDIT_EMPTY;
    assert_true(
        selection_turn(session, &id, 1, (Place){MM(50), MM(40)}, 90 * ANGLE_DEGREE, &edit, NULL));
    carry_out(session, &edit);
    /* A quarter turn about the middle takes (15, 40) to (50, 5) and (85, 40) to (50, 75). */
    int found = 0;
    for (uint32_t i = 0; i < plate_count(session_plate(session)); i++) {
        const Record *record = plate_at(session_plate(session), i);
        Pose pose = plate_pose(session_plate(session), record);
        if (record->kind == RECORD_HOLE)
            found +=
                fabs(pose.x - 50) < 1e-9 && (fabs(pose.y - 5) < 1e-9 || fabs(pose.y - 75) < 1e-9);
    }
    assert_int_equal(found, 2);
    session_free(session);
}

static void test_turned_over_keeps_its_middle(void **state)
{
    Session *session = open_new();
    FeatureId id = add_station(session, 50, 40);
    Box before = placed_find(session_placed(session), id)->box;
    Edit edit = EDIT_EMPTY;
    assert_true(selection_turn_over(session, &id, 1, &edit, NULL));
    carry_out(session, &edit);
    Box after = placed_find(session_placed(session), id)->box;
    assert_true(plate_find(session_plate(session), id)->station.turned_over);
    assert_true(fabs(before.x0 - after.x0) < 1e-6 && fabs(before.y0 - after.y0) < 1e-6);
    session_free(session);
}

static void test_taking_away(void **state)
{
    Session *session = open_new();
    FeatureId station = add_station(session, 50, 40);
    FeatureId hole = add_hole(session, 50, 10, 6);
    Record *settings = record_copy(plate_find(session_plate(session), ID_SETTINGS), ID_SETTINGS);
    settings->settings.datum.kind = DATUM_HOLE;
    settings->settings.datum.hole = hole;
    Edit edit = EDIT_EMPTY;
    edit_add(&edit, record_ref(plate_find(session_plate(session), ID_SETTINGS)), settings);
    carry_out(session, &edit);
    /* The station goes with its holes and screws; the datum goes back to its corner. */
    const FeatureId ids[] = {station, hole};
    assert_true(selection_delete(session, ids, 2, &edit, NULL));
    carry_out(session, &edit);
    assert_int_equal(count_kind(session, RECORD_HOLE), 0);
    assert_int_equal(count_kind(session, RECORD_FITTING), 0);
    assert_int_equal(plate_settings(session_plate(session))->datum.kind, DATUM_CORNER);
    assert_true(session_undo(session, NULL));
    assert_int_equal(count_kind(session, RECORD_HOLE), 4);
    assert_int_equal(plate_settings(session_plate(session))->datum.hole, hole);
    session_free(session);
}

static void test_made_and_locked_stay(void **state)
{
    Session *session = open_new();
    FeatureId id = add_hole(session, 50, 40, 6);
    Error error = {.kind = ERROR_NONE};
    Edit edit = EDIT_EMPTY;
    Record *locked = record_copy(plate_find(session_plate(session), id), id);
    locked->hole.locked = true;
    edit_add(&edit, record_ref(plate_find(session_plate(session), id)), locked);
    carry_out(session, &edit);
    assert_null(drag_begin(session, &id, 1, &error));
    assert_non_null(strstr(error.message, "locked"));
    assert_false(selection_delete(session, &id, 1, &edit, &error));
    edit_clear(&edit);
    session_free(session);
}

static void test_copies(void **state)
{
    Session *session = open_new(), *other = open_new();
    FeatureId station = add_station(session, 50, 20);
    Edit edit = EDIT_EMPTY;
    GArray *copies = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    assert_true(selection_duplicate(session, &station, 1, 0, MM(40), &edit, copies, NULL));
    carry_out(session, &edit);
    assert_int_equal(copies->len, 1);
    assert_int_equal(count_kind(session, RECORD_STATION), 2);
    assert_int_equal(count_kind(session, RECORD_HOLE), 6);
    /* The part is there once. */
    assert_int_equal(count_kind(session, RECORD_PART), 1);
    /* Into another plate, with its part. */
    char *text = selection_copy(session, &station, 1);
    assert_true(selection_paste(other, text, strlen(text), 0, 0, &edit, NULL, NULL));
    carry_out(other, &edit);
    assert_int_equal(count_kind(other, RECORD_PART), 1);
    assert_int_equal(count_kind(other, RECORD_FITTING), 3);
    Error error = {.kind = ERROR_NONE};
    assert_false(selection_paste(other, "hello", 5, 0, 0, &edit, NULL, &error));
    edit_clear(&edit);
    g_free(text);
    g_array_unref(copies);
    session_free(session);
    session_free(other);
}

static void test_remedy(void **state)
{
    Session *session = open_new();
    add_hole(session, 3.5, 40, 4);
    const Finding *first = NULL;
    assert_int_equal(count_of(session_findings(session), "edge-distance", &first), 1);
    Edit edit = EDIT_EMPTY;
    Finding finding = *first;
    assert_true(selection_remedy(session, &finding, &edit));
    carry_out(session, &edit);
    assert_int_equal(finding_list_counts(session_findings(session)).by_level[LEVEL_STOP], 0);
    session_free(session);
}

static void test_snap_and_hit(void **state)
{
    Session *session = open_new();
    FeatureId one = add_hole(session, 30, 40, 6);
    FeatureId other = add_hole(session, 60, 20, 6);
    SnapSettings settings = {.grid = 5, .reach = 1, .features = true};
    /* Near the first hole's height: drawn to it in Y, to the grid in X. */
    Snap snap = snap_place(session, ID_TOP, (Place){MM(61.4), MM(40.3)}, &other, 1, &settings);
    assert_int_equal(snap.at.x, MM(60));
    assert_int_equal(snap.at.y, MM(40));
    assert_true(snap.on_y && !snap.on_x);
    assert_int_equal(snap.to_y, one);
    assert_int_equal(hit_point(session_placed(session), ID_TOP, (Point){32, 40}, 0.5, ~0U), one);
    assert_int_equal(hit_point(session_placed(session), ID_TOP, (Point){45, 60}, 0.5, ~0U),
                     ID_NONE);
    /* What is hidden is not pressed. */
    assert_int_equal(
        hit_point(session_placed(session), ID_TOP, (Point){32, 40}, 0.5, ~(unsigned)FEATURE_HOLE),
        ID_NONE);
    GArray *band = hit_band(session_placed(session), ID_TOP, (Box){20, 30, 40, 50}, ~0U);
    assert_int_equal(band->len, 1);
    NearestGaps gaps = nearest_gaps(session_placed(session), one, 100);
    assert_true(fabs(gaps.edge.distance - 27) < 1e-9);
    assert_true(fabs(gaps.neighbour.distance - (sqrt(900 + 400) - 6)) < 1e-9);
    g_array_unref(band);
    session_free(session);
}

static void test_files(void **state)
{
    char *folder = g_dir_make_tmp("pinplate-XXXXXX", NULL);
    char *path = g_build_filename(folder, "a.plate", NULL);
    Error error = {.kind = ERROR_NONE};
    Session *session = open_new();
    assert_false(session_is_saved(session));
    assert_true(session_save(session, path, false, NULL));
    assert_true(session_is_saved(session));
    add_hole(session, 50, 40, 6);
    assert_false(session_is_saved(session));
    assert_true(session_undo(session, NULL));
    assert_true(session_is_saved(session));
    assert_true(session_redo(session, NULL));
    /* Somebody else changes the file meanwhile: nothing is overwritten unasked. */
    Session *second = session_open(path, NULL);
    add_hole(second, 20, 40, 6);
    assert_true(session_save(second, NULL, false, NULL));
    assert_true(session_file_changed(session));
    assert_false(session_save(session, NULL, false, &error));
    assert_int_equal(error.kind, ERROR_CONFLICT);
    assert_true(session_save(session, NULL, true, NULL));
    /* A new name that exists is not taken unasked either. */
    Session *third = open_new();
    assert_false(session_save(third, path, false, &error));
    session_free(session);
    session_free(second);
    session_free(third);
    g_remove(path);
    g_rmdir(folder);
    g_free(path);
    g_free(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_drag_shows_and_drops),
        cmocka_unit_test(test_cancelled_drag_leaves_no_trace),
        cmocka_unit_test(test_cancelled_ghost_uses_no_numbers),
        cmocka_unit_test(test_station_takes_its_things_along),
        cmocka_unit_test(test_turned_over_keeps_its_middle),
        cmocka_unit_test(test_taking_away),
        cmocka_unit_test(test_made_and_locked_stay),
        cmocka_unit_test(test_copies),
        cmocka_unit_test(test_remedy),
        cmocka_unit_test(test_snap_and_hit),
        cmocka_unit_test(test_files),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
