/* The rules on inclined faces, where the metal below the face is less the further down the slope:
 * each with a case that just passes and one that just fails, by trigonometry. The plate is
 * 200 x 100 x 20 mm, its front face leaves the top 50 mm from the front and falls at 10 degrees. */
#include "support/plates.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define UM 0.001
#define THICKNESS 20.0
#define ANGLE (10 * M_PI / 180)

static Plate *new_plate(FeatureId *face)
{
    Plate *plate = plate_new(MM(200), MM(100), MM(THICKNESS), PLATE_MM);
    *face = put_front_face(plate, 50, 10, 50 / cos(ANGLE));
    return plate;
}

/* Square to the face from a place `down` the slope to the underside: the place lies
 * down sin(angle) below the top, and the way down leans by the angle. */
static double metal_at(double down)
{
    return (THICKNESS - down * sin(ANGLE)) / cos(ANGLE);
}

static Plate *tapped_through(double drilled)
{
    FeatureId face;
    Plate *plate = new_plate(&face);
    FeatureId hole = put_blind_hole(plate, 20, 20, 5, drilled);
    add_step(plate, hole, STEP_TAP, 6, 0, "M6x1");
    put_on_face(plate, hole, face, -100, -30);
    return plate;
}

static void test_tap_through_where_the_face_is_low(void **state)
{
    double up = ceil(metal_at(30) / UM) * UM;
    expect_findings(tapped_through(up), "tap-depth", LEVEL_STOP, 0, 0);
    expect_findings(tapped_through(up - UM), "tap-depth", LEVEL_STOP, 1, up - UM);
}

/* --- drill-entry and wall-to-face ------------------------------------------------------------ */

/* A hole of 6 mm from the top, its middle so far from the break line. */
static Plate *hole_beside_break_line(double away)
{
    FeatureId face;
    Plate *plate = new_plate(&face);
    put_blind_hole(plate, 100, 50 + away, 6, 8);
    return plate;
}

/* The mouth touches the break line with its middle a radius away. */
static void test_drill_starts_on_the_slope(void **state)
{
    expect_findings(hole_beside_break_line(3), "drill-entry", LEVEL_CAUTION, 0, 0);
    expect_findings(hole_beside_break_line(3 - UM), "drill-entry", LEVEL_CAUTION, 1, 10);
    /* Wholly on the slope, and with a flat place made first. */
    expect_findings(hole_beside_break_line(-20), "drill-entry", LEVEL_CAUTION, 1, 10);
    FeatureId face;
    Plate *plate = new_plate(&face);
    FeatureId hole = put_blind_hole(plate, 100, 30, 8, 6);
    Record *record = record_copy(plate_find(plate, hole), hole);
    LIST_AT(&record->hole.steps, Step, 0)->kind = STEP_COUNTERBORE;
    change_record(plate, record);
    add_step(plate, hole, STEP_DRILL, 5, 12, NULL);
    expect_findings(plate, "drill-entry", LEVEL_CAUTION, 0, 0);
    /* From the inclined face it is square to it. */
    plate = new_plate(&face);
    put_on_face(plate, put_blind_hole(plate, 100, 30, 8, 6), face, -100, -20);
    expect_findings(plate, "drill-entry", LEVEL_CAUTION, 0, 0);
}

/* The nearest of the inclined face to an upright hole of the top is the break line. */
static void test_wall_to_the_break_line(void **state)
{
    expect_findings(hole_beside_break_line(5), "wall-to-face", LEVEL_STOP, 0, 0);
    expect_findings(hole_beside_break_line(5 - UM), "wall-to-face", LEVEL_STOP, 1, 2 - UM);
    /* What runs out over the slope leaves no wall. */
    expect_findings(hole_beside_break_line(2), "wall-to-face", LEVEL_STOP, 0, 0);
}

/* On a plate of 200 x 100 x 100 a hole of 6 mm square to a slope of 40 degrees, 10 mm down it from
 * 50 mm: its far rim lies at 50 - 10 cos 40 + depth sin 40 + 3 cos 40. */
static Plate *leaning_hole(double depth)
{
    Plate *plate = plate_new(MM(200), MM(100), MM(100), PLATE_MM);
    FeatureId face = put_front_face(plate, 50, 40, 60);
    FeatureId hole = put_blind_hole(plate, 100, 30, 6, depth);
    put_on_face(plate, hole, face, -100, -10);
    return plate;
}

static void test_wall_to_the_side(void **state)
{
    double sine = sin(40 * M_PI / 180), cosine = cos(40 * M_PI / 180);
    double depth = floor((98 - 50 + 7 * cosine) / sine / UM) * UM;
    expect_findings(leaning_hole(depth), "wall-to-face", LEVEL_STOP, 0, 0);
    depth += UM;
    expect_findings(leaning_hole(depth), "wall-to-face", LEVEL_STOP, 1,
                    100 - (50 - 7 * cosine + depth * sine));
}

/* --- reference-hole --------------------------------------------------------------------------- */

/* A hole of 6 mm reamed so deep, on the inclined face or on the top. */
static Plate *with_reference(double ream, bool on_top, double x, double y)
{
    FeatureId face;
    Plate *plate = new_plate(&face);
    FeatureId hole = put_blind_hole(plate, x, y, 5.8, ream + 2);
    add_step(plate, hole, STEP_REAM, 6, ream, NULL);
    if (!on_top)
        put_on_face(plate, hole, face, x, y);
    Record *record = record_copy(plate_find(plate, face), face);
    record->face.reference_hole = hole;
    change_record(plate, record);
    return plate;
}

static void test_reference_hole(void **state)
{
    FeatureId face;
    expect_findings(new_plate(&face), "reference-hole", LEVEL_CAUTION, 1, 0);
    expect_findings(with_reference(6, false, -100, -20), "reference-hole", LEVEL_CAUTION, 0, 0);
    expect_findings(with_reference(6 - UM, false, -100, -20), "reference-hole", LEVEL_CAUTION, 1,
                    (6 - UM) / 6);
    expect_findings(with_reference(6, true, 100, 75), "reference-hole", LEVEL_CAUTION, 0, 0);
    expect_findings(with_reference(6, true, 100, 75 + UM), "reference-hole", LEVEL_CAUTION, 1,
                    25 + UM);
    expect_findings(plate_new(MM(50), MM(50), MM(20), PLATE_MM), "reference-hole", LEVEL_CAUTION, 0,
                    0);
}

/* --- turned-over-agrees ----------------------------------------------------------------------- */

typedef struct Sides {
    Plate *plate;
    FeatureId face, part, one, other, pins[2];
} Sides;

static FeatureId put_side(Sides *sides, double x, bool turned_over)
{
    FeatureId station = put_station(sides->plate, sides->part, x, -2);
    Record *record = record_copy(plate_find(sides->plate, station), station);
    record->station.face = sides->face;
    record->station.turned_over = turned_over;
    record->station.rotation = turned_over ? 0 : 180 * ANGLE_DEGREE;
    change_record(sides->plate, record);
    FeatureId pin = put_pin(sides->plate, station, 1, 5, 8, FITTING_DOWEL, 4);
    Record *hole =
        record_copy(plate_find(sides->plate, plate_find(sides->plate, pin)->fitting.hole),
                    plate_find(sides->plate, pin)->fitting.hole);
    hole->hole.face = sides->face;
    change_record(sides->plate, hole);
    sides->pins[turned_over] = hole->id;
    return station;
}

static Sides new_sides(void)
{
    const double holes[] = {5, 8, 4.1};
    Sides sides;
    sides.plate = new_plate(&sides.face);
    sides.part = put_part(sides.plate, 60, 16, 3, 1, holes);
    sides.one = put_side(&sides, -30, false);
    sides.other = put_side(&sides, -170, true);
    Record *record = record_copy(plate_find(sides.plate, sides.other), sides.other);
    record->station.mirror_of = sides.one;
    change_record(sides.plate, record);
    return sides;
}

static void test_two_sides_agree(void **state)
{
    Sides sides = new_sides();
    expect_findings(sides.plate, "turned-over-agrees", LEVEL_STOP, 0, 0);
    for (int i = 2; i <= 3; i++) {
        sides = new_sides();
        Record *record = record_copy(plate_find(sides.plate, sides.other), sides.other);
        record->station.at.y += MM(i * UM);
        change_record(sides.plate, record);
        expect_findings(sides.plate, "turned-over-agrees", LEVEL_STOP, i - 2, 3 * UM);
        sides = new_sides();
        record = record_copy(plate_find(sides.plate, sides.pins[1]), sides.pins[1]);
        record->hole.at.x += MM(i * UM);
        change_record(sides.plate, record);
        expect_findings(sides.plate, "turned-over-agrees", LEVEL_STOP, i - 2, 3 * UM);
        sides = new_sides();
        put_nest(sides.plate, sides.one, 0.5, 1);
        put_nest(sides.plate, sides.other, 0.5, 1 + i * UM);
        expect_findings(sides.plate, "turned-over-agrees", LEVEL_STOP, i - 2, 3 * UM);
    }
    sides = new_sides();
    Record *record = record_copy(plate_find(sides.plate, sides.other), sides.other);
    record->station.turned_over = false;
    change_record(sides.plate, record);
    expect_findings(sides.plate, "turned-over-agrees", LEVEL_STOP, 1, 0);
}

/* --- one-setting ------------------------------------------------------------------------------ */

static FeatureId put_making(Plate *plate)
{
    Record *record = record_new(plate_new_id(plate), RECORD_OPERATION);
    record->operation.name = g_strdup("make");
    record->operation.kind = OPERATION_MAKING;
    record->operation.face = ID_TOP;
    return put_record(plate, record);
}

static void put_reamed(Plate *plate, double x, FeatureId operation)
{
    FeatureId hole = put_hole(plate, x, 70, 5.8);
    add_step(plate, hole, STEP_REAM, 6, 0, NULL);
    Record *record = record_copy(plate_find(plate, hole), hole);
    record->hole.operation = operation;
    change_record(plate, record);
}

static void test_close_holes_are_made_together(void **state)
{
    Plate *plate = plate_new(MM(200), MM(100), MM(20), PLATE_MM);
    FeatureId one = put_making(plate), other = put_making(plate);
    put_reamed(plate, 40, one);
    put_reamed(plate, 80, one);
    put_reamed(plate, 120, one);
    put_hole(plate, 160, 70, 5);
    const Finding *first = NULL;
    FindingList findings = findings_of(plate);
    assert_int_equal(count_of(&findings, "one-setting", NULL), 0);
    finding_list_clear(&findings);
    put_reamed(plate, 180, other);
    findings = findings_of(plate);
    assert_int_equal(count_of(&findings, "one-setting", &first), 1);
    assert_int_equal(first->operation, other);
    finding_list_clear(&findings);
    /* The base's locators are made before. */
    Record *base = record_new(plate_new_id(plate), RECORD_BASE);
    base->base.name = g_strdup("base");
    *list_append(&base->base.seats, BaseSeat) =
        (BaseSeat){.kind = BASE_ROUND_PIN, .at = {MM(180), MM(70)}, .diameter = MM(6)};
    put_record(plate, base);
    expect_findings(plate, "one-setting", LEVEL_CAUTION, 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tap_through_where_the_face_is_low),
        cmocka_unit_test(test_drill_starts_on_the_slope),
        cmocka_unit_test(test_wall_to_the_break_line),
        cmocka_unit_test(test_wall_to_the_side),
        cmocka_unit_test(test_reference_hole),
        cmocka_unit_test(test_two_sides_agree),
        cmocka_unit_test(test_close_holes_are_made_together),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
