/* The plate in space: frames of faces, extents in depth, and overlays. */
#include "placed/placed.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void near(double a, double b)
{
    if (!(fabs(a - b) < 1e-9))
        fail_msg("%.12g is not %.12g", a, b);
}

static FeatureId put_face(Plate *plate, double x0, double y0, double x1, double y1, double degrees,
                          double extent)
{
    Record *record = record_new(plate_new_id(plate), RECORD_FACE);
    record->face.name = g_strdup("front");
    record->face.kind = FACE_INCLINED;
    record->face.from = (Place){MM(x0), MM(y0)};
    record->face.to = (Place){MM(x1), MM(y1)};
    record->face.angle = angle_from_degrees(degrees);
    record->face.extent = MM(extent);
    return put_record(plate, record);
}

static void test_inclined_frame(void **state)
{
    /* A break line from right to left along y = 30 falls away to the front, at 30 degrees: half as
     * far down as along the slope, and cos 30 = 0.8660254... as far forward. */
    Plate *plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM);
    FeatureId face = put_face(plate, 90, 30, 10, 30, 30, 25);
    Placed *placed = placed_new(plate);
    const Frame *frame = placed_frame(placed, face);
    Space from = frame_to_space(frame, (Point){0, 0}, 0);
    near(from.x, 90);
    near(from.y, 30);
    near(from.z, 0);
    /* The far end of the break line lies 80 along, at X = -80 of the face. */
    Space to = frame_to_space(frame, (Point){-80, 0}, 0);
    near(to.x, 10);
    near(to.y, 30);
    near(to.z, 0);
    Space down = frame_to_space(frame, (Point){0, -10}, 0);
    near(down.y, 30 - 10 * 0.86602540378443865);
    near(down.z, -5);
    /* Out of the metal is up and to the front. */
    near(frame->normal.z, 0.86602540378443865);
    near(frame->normal.y, -0.5);
    double height;
    Point back = frame_from_space(frame, down, &height);
    near(back.x, 0);
    near(back.y, -10);
    near(height, 0);
    assert_true(shape_contains(&frame->extent, (Point){-80, -25}));
    assert_false(shape_contains(&frame->extent, (Point){1, -25}));
    placed_free(placed);
    plate_free(plate);
}

static void test_depths(void **state)
{
    Plate *plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM);
    FeatureId through = put_hole(plate, 20, 40, 6);
    FeatureId blind = put_blind_hole(plate, 50, 40, 6, 12);
    FeatureId slot = put_slot(plate, 80, 40, 20, 8, 5);
    Record *pointed = record_copy(plate_find(plate, blind), blind);
    LIST_AT(&pointed->hole.steps, Step, 0)->point = 90 * ANGLE_DEGREE;
    change_record(plate, pointed);
    Placed *placed = placed_new(plate);
    assert_true(placed_find(placed, through)->through);
    near(placed_find(placed, through)->bottom, -20);
    near(placed_find(placed, blind)->bottom, -12);
    near(placed_find(placed, blind)->tip, -15);
    assert_false(placed_find(placed, blind)->through);
    near(placed_find(placed, slot)->bottom, -5);
    near(placed_find(placed, slot)->box.x0, 70);
    near(placed_find(placed, slot)->box.y1, 44);
    placed_free(placed);
    plate_free(plate);
}

static bool count(const Feature *feature, void *data)
{
    ++*(int *)data;
    return true;
}

static int count_near(const Placed *placed, double x, double y)
{
    int found = 0;
    placed_each_near(placed, ID_TOP, (Box){x - 1, y - 1, x + 1, y + 1}, count, &found);
    return found;
}

static void test_overlay(void **state)
{
    Plate *plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM);
    FeatureId one = put_hole(plate, 20, 40, 6), other = put_hole(plate, 50, 40, 6);
    Placed *placed = placed_new(plate), *overlay = placed_overlay_new(placed);
    Edit edit = EDIT_EMPTY;
    Record *moved = record_copy(plate_find(plate, one), one);
    moved->hole.at.x = MM(80);
    edit_add(&edit, record_ref(plate_find(plate, one)), moved);
    edit_add(&edit, record_ref(plate_find(plate, other)), NULL);
    placed_overlay_show(overlay, plate, &edit);
    /* The overlay shows one moved and the other gone; what lies under it is as it was. */
    assert_int_equal(count_near(overlay, 20, 40), 0);
    assert_int_equal(count_near(overlay, 80, 40), 1);
    assert_int_equal(count_near(overlay, 50, 40), 0);
    assert_null(placed_find(overlay, other));
    assert_int_equal(count_near(placed, 20, 40), 1);
    assert_int_equal(count_near(placed, 50, 40), 1);
    int all = 0;
    placed_each(overlay, count, &all);
    assert_int_equal(all, 1);
    /* Showing nothing lets everything through again. */
    Edit nothing = EDIT_EMPTY;
    placed_overlay_show(overlay, plate, &nothing);
    assert_int_equal(count_near(overlay, 20, 40), 1);
    assert_int_equal(count_near(overlay, 50, 40), 1);
    edit_clear(&edit);
    placed_free(overlay);
    placed_free(placed);
    plate_free(plate);
}

/* A part and the screw through it stand on the floor of the deepest nest, 2.5 deep, wherever the
 * change comes from. */
static void test_part_lies_in_its_nest(void **state)
{
    const double holes[] = {10, 10, 5};
    Plate *plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM);
    FeatureId station = put_station(plate, put_part(plate, 40, 20, 3, 1, holes), 30, 30);
    FeatureId pin = put_pin(plate, station, 1, 10, 10, FITTING_DOWEL, 5);
    set_size(plate, pin, NULL, 6, 0, 0);
    Placed *placed = placed_new(plate), *overlay = placed_overlay_new(placed);
    near(placed_find(placed, station)->bottom, 0);
    Edit edit = EDIT_EMPTY, inverse = EDIT_EMPTY;
    ChangeSet changes = CHANGE_SET_EMPTY;
    Record *nest = record_new(plate_new_id(plate), RECORD_RECESS);
    nest->recess.kind = RECESS_NEST;
    nest->recess.face = ID_TOP;
    nest->recess.station = station;
    nest->recess.depth = MM(2.5);
    edit_add(&edit, NULL, nest);
    placed_overlay_show(overlay, plate, &edit);
    near(placed_find(overlay, station)->bottom, -2.5);
    near(placed_find(overlay, station)->top, 0.5);
    near(placed_find(overlay, pin)->top, 3.5);
    near(placed_find(placed, pin)->top, 6);
    assert_true(plate_apply(plate, &edit, &inverse, &changes, NULL));
    placed_update(placed, plate, &changes);
    near(placed_find(placed, pin)->bottom, -2.5);
    near(placed_find(placed, station)->top, 0.5);
    placed_overlay_show(overlay, plate, &inverse);
    near(placed_find(overlay, pin)->top, 6);
    changes.count = 0;
    assert_true(plate_apply(plate, &inverse, NULL, &changes, NULL));
    placed_update(placed, plate, &changes);
    near(placed_find(placed, pin)->top, 6);
    near(placed_find(placed, station)->bottom, 0);
    edit_clear(&edit);
    edit_clear(&inverse);
    change_set_clear(&changes);
    placed_free(overlay);
    placed_free(placed);
    plate_free(plate);
}

static void test_station_turned_over(void **state)
{
    /* A hole of the part at (5, 3), turned over is at (5, -3); a quarter turn takes that to (3, 5);
     * shifted by (40, 20): (43, 25). */
    Plate *plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM);
    const double holes[] = {5, 3, 4};
    FeatureId station = put_station(plate, put_part(plate, 40, 10, 3, 1, holes), 40, 20);
    FeatureId pin = put_pin(plate, station, 1, 5, 3, FITTING_DOWEL, 3.98);
    Record *turned = record_copy(plate_find(plate, station), station);
    turned->station.turned_over = true;
    turned->station.rotation = 90 * ANGLE_DEGREE;
    change_record(plate, turned);
    Placed *placed = placed_new(plate);
    Point at = feature_at(placed_find(placed, pin));
    near(at.x, 43);
    near(at.y, 25);
    int on = 0;
    placed_each_on(placed, station, count, &on);
    assert_int_equal(on, 3);
    placed_free(placed);
    plate_free(plate);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_inclined_frame),
        cmocka_unit_test(test_depths),
        cmocka_unit_test(test_overlay),
        cmocka_unit_test(test_part_lies_in_its_nest),
        cmocka_unit_test(test_station_turned_over),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
