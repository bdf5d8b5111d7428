/* What running a batch does to the plate and leaves of the blanks, and what making and mending its
 * holes needs: each with a case that just passes and one that just fails, by trigonometry. The
 * plate is 200 x 100 x 20 mm. */
#include "support/plates.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define UM 0.001

static Plate *new_plate(void)
{
    return plate_new(MM(200), MM(100), MM(20), PLATE_MM);
}

static FeatureId put_running(Plate *plate, Pass pass, FeatureId fitted)
{
    Record *record = record_new(plate_new_id(plate), RECORD_OPERATION);
    record->operation.name = g_strdup("run");
    record->operation.kind = OPERATION_RUNNING;
    record->operation.face = ID_TOP;
    if (fitted)
        *list_append(&record->operation.fitted, FeatureId) = fitted;
    *list_append(&record->operation.passes, Pass) = pass;
    return put_record(plate, record);
}

/* --- spoils-locator --------------------------------------------------------------------------- */

/* The part's hole of 6 mm is drilled on the plate, 1 mm below the part with the drill's full width,
 * over a locator of 5.99 whose hole is counterbored so wide and deep (0: not at all). */
static Plate *drilled_over_locator(double point, double wide, double deep)
{
    const double holes[] = {10, 10, 6};
    Plate *plate = new_plate();
    FeatureId station = put_station(plate, put_part(plate, 50, 20, 3, 1, holes), 60, 30);
    FeatureId pin = put_pin(plate, station, 1, 10, 10, FITTING_DOWEL, 5.99);
    FeatureId hole = plate_find(plate, pin)->fitting.hole;
    if (deep > 0)
        add_step(plate, hole, STEP_COUNTERBORE, wide, deep, NULL);
    put_running(plate,
                (Pass){.where = PASS_HOLES,
                       .cutter_diameter = MM(6),
                       .depth_below = MM(1),
                       .point = angle_from_degrees(point)},
                ID_NONE);
    return plate;
}

static void test_flat_cutter_over_a_locator(void **state)
{
    expect_findings(drilled_over_locator(0, 0, 0), "spoils-locator", LEVEL_STOP, 1, 1);
    expect_findings(drilled_over_locator(0, 7, 1), "spoils-locator", LEVEL_STOP, 0, 0);
    expect_findings(drilled_over_locator(0, 7, 1 - UM), "spoils-locator", LEVEL_STOP, 1, UM);
    expect_findings(drilled_over_locator(0, 6.2, 1), "spoils-locator", LEVEL_CAUTION, 0, 0);
    expect_findings(drilled_over_locator(0, 6.2 - 2 * UM, 1), "spoils-locator", LEVEL_CAUTION, 1,
                    0.1 - UM);
}

/* The point of 118 degrees is 3 / tan 59 long (handbooks: 0.3004 D); it is as wide as the hole of
 * 5.99 mm a share of 5.99 / 6 before its tip. */
static void test_drill_point_over_a_locator(void **state)
{
    double point = 3 / tan(59 * M_PI / 180);
    assert_true(fabs(point - 0.3004 * 6) < 0.0005);
    double deep = 1 + point * (1 - 5.99 / 6), passes = ceil(deep / UM) * UM;
    expect_findings(drilled_over_locator(118, 7, passes), "spoils-locator", LEVEL_STOP, 0, 0);
    expect_findings(drilled_over_locator(118, 7, passes - UM), "spoils-locator", LEVEL_STOP, 1,
                    deep - passes + UM);
}

/* --- offcut-loose ----------------------------------------------------------------------------- */

/* A part of 40 x 20 in a blank larger by `margin` all round, cut out by a cutter of 6 mm. */
static Plate *cut_out(double margin, bool clamped)
{
    Plate *plate = new_plate();
    FeatureId part = put_part(plate, 40, 20, 3, 0, NULL);
    Record *record = record_copy(plate_find(plate, part), part);
    record->part.blank = (Blank){
        {-MM(margin), -MM(margin)}, MM(40) + 2 * MM(margin), MM(20) + 2 * MM(margin), MM(3)};
    change_record(plate, record);
    put_station(plate, part, 60, 30);
    FeatureId clamp =
        clamped ? put_clamp(plate, ID_NONE, 80, 50 + margin + 6, 270, 12, 20) : ID_NONE;
    put_running(plate, (Pass){.where = PASS_OUTLINE_OUTSIDE, .cutter_diameter = MM(6)}, clamp);
    return plate;
}

/* A square corner's corner lies sqrt(2) margins from the part's. */
static void test_waste_round_a_part(void **state)
{
    double margin = floor(7 / sqrt(2) / UM) * UM;
    expect_findings(cut_out(margin, false), "offcut-loose", LEVEL_CAUTION, 0, 0);
    margin += UM;
    expect_findings(cut_out(margin, false), "offcut-loose", LEVEL_CAUTION, 1, sqrt(2) * margin - 6);
    expect_findings(cut_out(margin, true), "offcut-loose", LEVEL_CAUTION, 0, 0);
}

/* A part with a round opening, cut inside by a cutter of 6 mm: what is left in the middle is twice
 * the cutter smaller. */
static Plate *opened(double diameter)
{
    Plate *plate = new_plate();
    FeatureId part = put_part(plate, 60, 40, 3, 0, NULL);
    Record *record = record_copy(plate_find(plate, part), part);
    PartRing *ring = list_append(&record->part.rings, PartRing);
    for (int i = 0; i < 2; i++)
        *list_append(&ring->nodes, OutlineNode) = (OutlineNode){
            MM(30) + (i ? MM(diameter / 2) : -MM(diameter / 2)), MM(20), MM(diameter / 2)};
    change_record(plate, record);
    put_station(plate, part, 60, 30);
    put_running(plate, (Pass){.where = PASS_OUTLINE_INSIDE, .cutter_diameter = MM(6)}, ID_NONE);
    return plate;
}

static void test_piece_of_an_opening(void **state)
{
    expect_findings(opened(13), "offcut-loose", LEVEL_CAUTION, 0, 0);
    expect_findings(opened(13 + 2 * UM), "offcut-loose", LEVEL_CAUTION, 1, 1 + 2 * UM);
}

/* --- ream-floor and pin-removal --------------------------------------------------------------- */

static Plate *reamed(double drilled, double deep)
{
    Plate *plate = new_plate();
    add_step(plate, put_blind_hole(plate, 50, 40, 5.8, drilled), STEP_REAM, 6, deep, NULL);
    return plate;
}

static void test_room_below_a_reamer(void **state)
{
    expect_findings(reamed(11, 10), "ream-floor", LEVEL_CAUTION, 0, 0);
    expect_findings(reamed(11 - UM, 10), "ream-floor", LEVEL_CAUTION, 1, 1 - UM);
}

/* A pin of 6 with at most 12 um over that, in a hole reamed 8 deep to at least 6 + `lower`, with a
 * hole right through below it of a diameter (0: none). */
static Plate *pinned(double lower, double through)
{
    const double holes[] = {10, 10, 6.1};
    Plate *plate = new_plate();
    FeatureId station = put_station(plate, put_part(plate, 50, 20, 3, 1, holes), 60, 30);
    FeatureId pin = put_pin(plate, station, 1, 10, 10, FITTING_DOWEL, 6);
    FeatureId hole = plate_find(plate, pin)->fitting.hole;
    set_size(plate, pin, "pin", 3, 0.012, 0.004);
    Record *record = record_copy(plate_find(plate, hole), hole);
    Step *step = LIST_AT(&record->hole.steps, Step, 0);
    step->kind = STEP_REAM;
    step->through = false;
    step->depth = MM(8);
    step->lower = MM(lower);
    step->upper = MM(0.02);
    change_record(plate, record);
    if (through > 0)
        add_step(plate, hole, STEP_DRILL, through, 0, NULL);
    return plate;
}

static void test_pin_is_driven_out(void **state)
{
    expect_findings(pinned(0.012, 0), "pin-removal", LEVEL_CAUTION, 0, 0);
    expect_findings(pinned(0.011, 0), "pin-removal", LEVEL_CAUTION, 1, 0);
    expect_findings(pinned(0, 3.006), "pin-removal", LEVEL_CAUTION, 0, 0);
    expect_findings(pinned(0, 3.005), "pin-removal", LEVEL_CAUTION, 1, 3.005 / 6.012);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_flat_cutter_over_a_locator),
        cmocka_unit_test(test_drill_point_over_a_locator),
        cmocka_unit_test(test_waste_round_a_part),
        cmocka_unit_test(test_piece_of_an_opening),
        cmocka_unit_test(test_room_below_a_reamer),
        cmocka_unit_test(test_pin_is_driven_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
