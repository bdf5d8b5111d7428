/* Inclined faces by command: the face, its reference hole, the blade's two stations kept as mirror
 * images, and the relief under the first bevel. */
#include "session/drag.h"
#include "session/inclined.h"
#include "session/mirror.h"
#include "session/new-things.h"
#include "session/selection.h"
#include "support/plates.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static Session *open_new(void)
{
    return session_new(plate_new(MM(200), MM(100), MM(20), PLATE_MM), NULL);
}

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

static FeatureId add_face(Session *session, FallsTo side, double run, double degrees)
{
    Edit edit = EDIT_EMPTY;
    FeatureId id =
        new_inclined_face(session, NULL, side, MM(run), angle_from_degrees(degrees), &edit, NULL);
    assert_true(id);
    carry_out(session, &edit);
    return id;
}

/* A blade of 60 x 16 x 3 with its edge along y = 0 from x = 20, and three holes behind it. */
static FeatureId add_blade(Session *session)
{
    const double holes[] = {4, 8, 4.2, 14, 12, 3.4, 12, 4, 3.4};
    Plate *other = plate_new(MM(10), MM(10), MM(10), PLATE_MM);
    FeatureId made = put_part(other, 60, 16, 3, 3, holes);
    Record *record = record_copy(plate_find(other, made), made);
    record->part.bevel.angle = angle_from_degrees(6.5);
    record->part.bevel.edge_thickness = MM(0.4);
    record->part.bevel.both_sides = true;
    record->part.bevel.from = (Place){MM(20), 0};
    record->part.bevel.to = (Place){MM(60), 0};
    Edit edit = EDIT_EMPTY;
    FeatureId part = new_part(session, &record->part, &edit);
    carry_out(session, &edit);
    record_unref(record);
    plate_free(other);
    return part;
}

static void test_face_on_each_side(void **state)
{
    static const double corners[4][4] = {
        /* x and y of the stock's corners below the face */
        {0, 0, 200, 0},
        {200, 0, 200, 100},
        {0, 100, 200, 100},
        {0, 0, 0, 100},
    };
    for (int side = 0; side < 4; side++) {
        Session *session = open_new();
        FeatureId id = add_face(session, (FallsTo)side, 30, 10);
        const Frame *frame = placed_frame(session_placed(session), id);
        double fall = 30 * tan(10 * M_PI / 180);
        for (int end = 0; end < 2; end++) {
            double height;
            Space corner = {corners[side][2 * end], corners[side][2 * end + 1], -fall};
            Point on = frame_from_space(frame, corner, &height);
            assert_true(fabs(height) < 1e-6);
            assert_true(on.x < 1e-6 && fabs(on.y + 30 / cos(10 * M_PI / 180)) < 1e-6);
        }
        session_free(session);
    }
}

static void test_face_that_cannot_be(void **state)
{
    Session *session = open_new();
    Edit edit = EDIT_EMPTY;
    Error error = {.kind = ERROR_NONE};
    /* 20 mm of fall at 45 degrees is 20 mm of run. */
    assert_false(
        new_inclined_face(session, NULL, FALLS_TO_FRONT, MM(20), 45 * ANGLE_DEGREE, &edit, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    assert_false(
        new_inclined_face(session, NULL, FALLS_TO_FRONT, MM(100), ANGLE_DEGREE, &edit, &error));
    assert_false(new_inclined_face(session, NULL, FALLS_TO_FRONT, MM(10), 0, &edit, &error));
    assert_int_equal(edit.count, 0);
    assert_true(new_inclined_face(session, NULL, FALLS_TO_FRONT, length_from_mm(19.999999),
                                  45 * ANGLE_DEGREE, &edit, &error));
    edit_clear(&edit);
    session_free(session);
}

static void test_reference_hole_is_found_room(void **state)
{
    Session *session = open_new();
    FeatureId face = add_face(session, FALLS_TO_FRONT, 40, 6.5);
    Edit edit = EDIT_EMPTY;
    FeatureId hole = new_reference_hole(session, face, NULL, 0, &edit, NULL);
    assert_true(hole);
    carry_out(session, &edit);
    assert_int_equal(find(session, face)->face.reference_hole, hole);
    assert_int_equal(find(session, hole)->hole.face, face);
    assert_int_equal(find(session, hole)->hole.at.x, MM(-100));
    FindingCounts counts = finding_list_counts(session_findings(session));
    assert_int_equal(counts.by_level[LEVEL_STOP], 0);
    Error error = {.kind = ERROR_NONE};
    assert_false(new_reference_hole(session, face, NULL, 0, &edit, &error));
    assert_int_equal(error.kind, ERROR_CONFLICT);
    assert_false(new_reference_hole(session, ID_TOP, NULL, 0, &edit, &error));
    edit_clear(&edit);
    session_free(session);
}

/* The edge's two ends, on the face. */
static void edge_on_face(const Session *session, FeatureId station, Point ends[2])
{
    const Feature *part = placed_find(session_placed(session), station);
    ends[0] = pose_point(part->shape.pose, (Point){20, 0});
    ends[1] = pose_point(part->shape.pose, (Point){60, 0});
}

static void test_edge_lies_on_break_line(void **state)
{
    for (int turned = 0; turned < 2; turned++) {
        Session *session = open_new();
        FeatureId face = add_face(session, FALLS_TO_FRONT, 40, 6.5), part = add_blade(session);
        Edit edit = EDIT_EMPTY;
        FeatureId station = new_station(session, face, (Place){MM(-70), MM(-20)}, part, &edit);
        carry_out(session, &edit);
        Record *record = record_copy(find(session, station), station);
        record->station.turned_over = turned;
        record->station.rotation = 33 * ANGLE_DEGREE;
        edit_add(&edit, record_ref(find(session, station)), record);
        carry_out(session, &edit);
        Point ends[2], before[2];
        edge_on_face(session, station, before);
        assert_true(line_up_bevel(session, station, &edit, NULL));
        carry_out(session, &edit);
        edge_on_face(session, station, ends);
        assert_true(ends[0].y == 0 && ends[1].y == 0);
        assert_true(fabs(ends[0].x + ends[1].x - before[0].x - before[1].x) < 4e-6);
        assert_true(placed_find(session_placed(session), station)->box.y1 <= 1e-9);
        session_free(session);
    }
}

static void test_line_up_says_why_not(void **state)
{
    Session *session = open_new();
    Edit edit = EDIT_EMPTY;
    Error error = {.kind = ERROR_NONE};
    FeatureId part = add_blade(session);
    FeatureId station = new_station(session, ID_TOP, (Place){MM(70), MM(60)}, part, &edit);
    carry_out(session, &edit);
    assert_false(line_up_bevel(session, station, &edit, &error));
    assert_int_equal(error.kind, ERROR_MISSING);
    assert_int_equal(edit.count, 0);
    session_free(session);
}

static void assert_mirrored(const Session *session, const FeatureId stations[2], double line)
{
    Point one[2], other[2];
    edge_on_face(session, stations[0], one);
    edge_on_face(session, stations[1], other);
    for (int i = 0; i < 2; i++) {
        assert_true(fabs(one[i].x + other[i].x - 2 * line) < 1e-9);
        assert_true(fabs(one[i].y - other[i].y) < 1e-9);
    }
}

static void test_pair_is_kept_mirrored(void **state)
{
    Session *session = open_new();
    FeatureId face = add_face(session, FALLS_TO_FRONT, 40, 6.5), part = add_blade(session);
    FeatureId stations[2];
    Edit edit = EDIT_EMPTY;
    assert_true(new_bevel_pair(session, face, part, stations, &edit, NULL));
    carry_out(session, &edit);
    assert_mirrored(session, stations, -100);
    assert_false(find(session, stations[0])->station.turned_over);
    assert_true(find(session, stations[1])->station.turned_over);
    assert_int_equal(mirror_partner(session_plate(session), stations[0]), stations[1]);
    assert_int_equal(mirror_partner(session_plate(session), stations[1]), stations[0]);
    /* Either moves the other, in one step that one undo takes back. */
    for (int i = 0; i < 2; i++) {
        Place before = find(session, stations[1 - i])->station.at;
        assert_true(selection_move(session, &stations[i], 1, MM(3), MM(-2), &edit, NULL));
        carry_out(session, &edit);
        assert_mirrored(session, stations, -100);
        assert_int_equal(find(session, stations[1 - i])->station.at.x, before.x - MM(3));
        assert_int_equal(find(session, stations[1 - i])->station.at.y, before.y - MM(2));
        assert_true(session_undo(session, NULL));
        assert_int_equal(find(session, stations[1 - i])->station.at.x, before.x);
    }
    assert_true(selection_turn(session, stations, 1, (Place){MM(-50), MM(-10)}, 7 * ANGLE_DEGREE,
                               &edit, NULL));
    carry_out(session, &edit);
    assert_mirrored(session, stations, -100);
    session_free(session);
}

static FeatureId hole_on(const Session *session, FeatureId station, int number)
{
    for (uint32_t i = 0; i < plate_count(session_plate(session)); i++) {
        const Record *record = plate_at(session_plate(session), i);
        if (record->kind == RECORD_HOLE && record->hole.station == station && number-- == 0)
            return record->id;
    }
    return ID_NONE;
}

static void test_holes_of_the_pair_go_together(void **state)
{
    Session *session = open_new();
    FeatureId face = add_face(session, FALLS_TO_FRONT, 40, 6.5), part = add_blade(session);
    FeatureId stations[2];
    Edit edit = EDIT_EMPTY;
    assert_true(new_bevel_pair(session, face, part, stations, &edit, NULL));
    carry_out(session, &edit);
    FeatureId hole = hole_on(session, stations[0], 1), twin = hole_on(session, stations[1], 1);
    assert_true(hole && twin);
    assert_true(selection_move(session, &hole, 1, MM(1), MM(-1), &edit, NULL));
    carry_out(session, &edit);
    Place one = find(session, hole)->hole.at, other = find(session, twin)->hole.at;
    assert_true(one.x == other.x && one.y == other.y);
    /* Once they are let go of, each goes its own way. */
    Record *record = record_copy(find(session, stations[1]), stations[1]);
    record->station.mirror_of = ID_NONE;
    edit_add(&edit, record_ref(find(session, stations[1])), record);
    carry_out(session, &edit);
    assert_true(selection_move(session, &hole, 1, MM(1), 0, &edit, NULL));
    carry_out(session, &edit);
    assert_int_equal(find(session, twin)->hole.at.x, other.x);
    session_free(session);
}

/* While it is dragged the other side is shown where it will be. */
static void test_drag_shows_both_sides(void **state)
{
    Session *session = open_new();
    FeatureId face = add_face(session, FALLS_TO_FRONT, 40, 6.5), part = add_blade(session);
    FeatureId stations[2];
    Edit edit = EDIT_EMPTY;
    assert_true(new_bevel_pair(session, face, part, stations, &edit, NULL));
    carry_out(session, &edit);
    double x = placed_find(session_placed(session), stations[1])->shape.pose.x;
    Drag *drag = drag_begin(session, stations, 1, NULL);
    drag_move(drag, MM(9), 0);
    drag_move(drag, MM(4), MM(-1));
    const Feature *shown = placed_find(session_shown(session), stations[1]);
    assert_true(fabs(shown->shape.pose.x - (x - 4)) < 1e-9 && shown->shape.pose.y == -1);
    assert_true(drag_drop(drag, NULL));
    assert_mirrored(session, stations, -100);
    assert_true(session_undo(session, NULL));
    assert_true(placed_find(session_placed(session), stations[1])->shape.pose.x == x);
    drag = drag_begin(session, stations, 2, NULL);
    drag_move(drag, MM(2), 0);
    drag_cancel(drag);
    session_free(session);
}

/* A side that is cut already stays where it is; the check then says that the two differ. */
static void test_what_is_made_stays(void **state)
{
    Session *session = open_new();
    FeatureId face = add_face(session, FALLS_TO_FRONT, 40, 6.5), part = add_blade(session);
    FeatureId stations[2];
    Edit edit = EDIT_EMPTY;
    assert_true(new_bevel_pair(session, face, part, stations, &edit, NULL));
    carry_out(session, &edit);
    assert_int_equal(count_of(session_findings(session), "turned-over-agrees", NULL), 0);
    FeatureId made = hole_on(session, stations[1], 0);
    Record *record = record_copy(find(session, made), made);
    record->hole.made = true;
    edit_add(&edit, record_ref(find(session, made)), record);
    carry_out(session, &edit);
    Place before = find(session, stations[1])->station.at;
    assert_true(selection_move(session, stations, 1, 0, MM(-1), &edit, NULL));
    carry_out(session, &edit);
    assert_int_equal(find(session, stations[1])->station.at.y, before.y);
    assert_int_equal(count_of(session_findings(session), "turned-over-agrees", NULL), 1);
    session_free(session);
}

/* Height (t - e) / (2 tan(angle)) = 2.6 / (2 tan 6.5) = 11.41 mm, and under the edge half of what
 * is taken off, 1.3 mm: trigonometry. */
static void test_relief_has_the_bevels_figures(void **state)
{
    Session *session = open_new();
    FeatureId face = add_face(session, FALLS_TO_FRONT, 40, 6.5), part = add_blade(session);
    FeatureId stations[2];
    Edit edit = EDIT_EMPTY;
    assert_true(new_bevel_pair(session, face, part, stations, &edit, NULL));
    carry_out(session, &edit);
    Error error = {.kind = ERROR_NONE};
    assert_false(new_support_relief(session, stations[0], &edit, &error));
    assert_int_equal(error.kind, ERROR_CONFLICT);
    FeatureId relief = new_support_relief(session, stations[1], &edit, NULL);
    assert_true(relief);
    carry_out(session, &edit);
    assert_int_equal(find(session, relief)->recess.depth, MM(1.3));
    const Feature *feature = placed_find(session_placed(session), relief);
    assert_true(fabs(feature->box.y0 + 1.3 / tan(6.5 * M_PI / 180)) < 2e-6);
    assert_true(feature->box.y1 > 0);
    session_free(session);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_face_on_each_side),
        cmocka_unit_test(test_face_that_cannot_be),
        cmocka_unit_test(test_reference_hole_is_found_room),
        cmocka_unit_test(test_edge_lies_on_break_line),
        cmocka_unit_test(test_line_up_says_why_not),
        cmocka_unit_test(test_pair_is_kept_mirrored),
        cmocka_unit_test(test_holes_of_the_pair_go_together),
        cmocka_unit_test(test_drag_shows_both_sides),
        cmocka_unit_test(test_what_is_made_stays),
        cmocka_unit_test(test_relief_has_the_bevels_figures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
