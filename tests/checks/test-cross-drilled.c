/* Recesses of two faces in space: each case just passes and just fails, 1 um apart, by closed forms
 * that stand beside it. The plate is 100 x 80 x 20 mm of aluminium. Its front face leaves the top
 * at y = 20; in the face's own coordinates X is the plate's less 100 and Y runs up the slope, along
 * (0, cos, sin) in space, from (0, 20, 0). */
#include "support/plates.h"

#include "placed/placed-solids.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define UM 0.001
#define LEAN 6.5
#define RADIANS (M_PI / 180)

typedef struct Bench {
    Plate *plate;
    FeatureId face;
} Bench;

static Bench bench(double degrees)
{
    Bench made = {.plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM)};
    made.face = put_front_face(made.plate, 20, degrees, 20);
    return made;
}

/* A hole of the front face at a place on it; a depth of 0 goes through. */
static FeatureId put_front_hole(Bench *made, double x, double y, double diameter, double depth)
{
    FeatureId id = put_blind_hole(made->plate, 0, 0, diameter, depth);
    put_on_face(made->plate, id, made->face, x, y);
    return id;
}

/* Looks for findings of the rule, then frees the plate. */
static void expect(Bench made, FindingLevel level, int count, double value)
{
    const Finding *first = NULL;
    FindingList findings = findings_of(made.plate);
    int found = count_of(&findings, "cross-drilled", &first);
    if (found != count)
        fail_msg("%d findings, %d expected", found, count);
    if (count) {
        assert_int_equal(first->level, level);
        if (fabs(first->value - value) > 1e-6)
            fail_msg("the figure is %.7f, %.7f expected", first->value, value);
    }
    finding_list_clear(&findings);
    plate_free(made.plate);
}

/* The leaning axis starts 10 mm down the slope and passes y = 20 - 10 cos + 12 sin at 12 mm along
 * it; an upright axis there is as far off as the two are along X. */
static Bench holes_side_by_side(double apart)
{
    Bench made = bench(LEAN);
    double y = 20 - 10 * cos(LEAN * RADIANS) + 12 * sin(LEAN * RADIANS);
    put_front_hole(&made, -50, -10, 4, 0);
    put_hole(made.plate, 50 + apart, y, 6);
    return made;
}

static void test_side_by_side(void **state)
{
    /* Radii of 2 and 3, and a wall of 2. */
    expect(holes_side_by_side(7), LEVEL_STOP, 0, 0);
    expect(holes_side_by_side(7 - UM), LEVEL_STOP, 1, 2 - UM);
    expect(holes_side_by_side(-7), LEVEL_STOP, 0, 0);
    expect(holes_side_by_side(-7 + UM), LEVEL_STOP, 1, 2 - UM);
    /* A touch is a wall of nothing; 1 um on they are one, by that much. */
    expect(holes_side_by_side(5), LEVEL_STOP, 1, 0);
    expect(holes_side_by_side(5 - UM), LEVEL_STOP, 1, -UM);
    /* 1.5 mm are enough in steel. */
    for (int fails = 0; fails < 2; fails++) {
        Bench made = holes_side_by_side(6.5 - fails * UM);
        Record *settings = record_copy(plate_find(made.plate, ID_SETTINGS), ID_SETTINGS);
        settings->settings.stock.metal = METAL_STEEL;
        change_record(made.plate, settings);
        expect(made, LEVEL_STOP, fails, 1.5 - UM);
    }
}

/* A slot along X on the top, 6 deep: the lower edge of its front side is a line at (y, z) =
 * (25, -6), (25 - 20) cos - 6 sin up the face's slope from the break line. A hole of the face
 * passes below it: between its axis and the edge there are that much and its own place down the
 * slope. */
static Bench hole_below_slot(double up_slope)
{
    Bench made = bench(LEAN);
    put_slot(made.plate, 50, 28, 40, 6, 6);
    put_front_hole(&made, -50, up_slope, 4, 0);
    return made;
}

static void test_slot(void **state)
{
    double edge = 5 * cos(LEAN * RADIANS) - 6 * sin(LEAN * RADIANS);
    /* The last whole um of a wall of 2 beside a radius of 2. */
    double passes = floor((edge - 4) / UM) * UM;
    expect(hole_below_slot(passes), LEVEL_STOP, 0, 0);
    expect(hole_below_slot(passes + UM), LEVEL_STOP, 1, edge - (passes + UM) - 2);
}

/* A face of 65 degrees, so that a hole of it passes below a drill's point: the point of 118 degrees
 * of a hole of 6 mm ends 3 / tan 59 below its depth, and points 25 degrees off the way to the axis,
 * within the 31 that its normals reach. */
static Bench hole_below_point(double up_slope)
{
    Bench made = bench(65);
    FeatureId id = put_blind_hole(made.plate, 50, 30, 6, 4);
    Record *record = record_copy(plate_find(made.plate, id), id);
    LIST_AT(&record->hole.steps, Step, 0)->point = 118 * ANGLE_DEGREE;
    change_record(made.plate, record);
    put_front_hole(&made, -50, up_slope, 4, 30);
    return made;
}

static void test_point(void **state)
{
    double tip = -4 - 3 / tan(59 * RADIANS);
    double up = (30 - 20) * cos(65 * RADIANS) + tip * sin(65 * RADIANS);
    double passes = floor((up - 4) / UM) * UM;
    expect(hole_below_point(passes), LEVEL_STOP, 0, 0);
    expect(hole_below_point(passes + UM), LEVEL_STOP, 1, up - (passes + UM) - 2);
}

/* Two slots that meet are a note; of one face, they are this rule's business no more. */
static void test_slots(void **state)
{
    Bench made = bench(LEAN);
    FeatureId id = put_slot(made.plate, 0, 0, 30, 6, 5);
    put_on_face(made.plate, id, made.face, -50, -4);
    put_slot(made.plate, 50, 20, 30, 6, 5);
    FindingList findings = findings_of(made.plate);
    const Finding *first = NULL;
    assert_int_equal(count_of(&findings, "cross-drilled", &first), 1);
    assert_int_equal(first->level, LEVEL_NOTE);
    assert_int_equal(count_of(&findings, "overlap", NULL), 0);
    finding_list_clear(&findings);
    put_on_face(made.plate, id, ID_TOP, 50, 16);
    expect(made, LEVEL_NOTE, 0, 0);
}

/* A hole through from the face, its axis 2 mm down the slope with a radius of 2, so that its rear
 * side starts at the break line: it leaves the underside at y = 20 + 20 tan, is nearest there to an
 * upright hole behind it, and reaches no further. */
static Bench hole_behind(double y)
{
    Bench made = bench(LEAN);
    put_front_hole(&made, -50, -2, 4, 0);
    put_hole(made.plate, 50, y, 4);
    return made;
}

static void test_underside(void **state)
{
    double rear = 20 + 20 * tan(LEAN * RADIANS);
    double passes = ceil((rear + 2 + 2) / UM) * UM;
    expect(hole_behind(passes), LEVEL_STOP, 0, 0);
    expect(hole_behind(passes - UM), LEVEL_STOP, 1, passes - UM - 2 - rear);
}

/* A blind hole of the face with a flat end: of its rim the place down the slope is lowest,
 * z = (y - 2) sin - depth cos. */
static Bench deep_hole(double depth)
{
    Bench made = bench(LEAN);
    put_front_hole(&made, -50, -12, 4, depth);
    return made;
}

static void expect_rule(Bench made, const char *slug, int count, double value)
{
    const Finding *first = NULL;
    FindingList findings = findings_of(made.plate);
    assert_int_equal(count_of(&findings, slug, &first), count);
    if (count && fabs(first->value - value) > 1e-6)
        fail_msg("%s: the figure is %.7f, %.7f expected", slug, first->value, value);
    finding_list_clear(&findings);
    plate_free(made.plate);
}

/* The metal below a hole of an inclined face is what is left above the underside, and less the
 * further down the slope it lies. */
static void test_floor(void **state)
{
    double sine = sin(LEAN * RADIANS), cosine = cos(LEAN * RADIANS);
    double passes = floor((20 - 2 - 14 * sine) / cosine / UM) * UM;
    expect_rule(deep_hole(passes), "floor", 0, 0);
    expect_rule(deep_hole(passes + UM), "floor", 1, 20 - 14 * sine - (passes + UM) * cosine);
    passes = floor((20 - 14 * sine) / cosine / UM) * UM;
    expect_rule(deep_hole(passes), "breaks-through", 0, 0);
    expect_rule(deep_hole(passes), "floor", 1, 20 - 14 * sine - passes * cosine);
    expect_rule(deep_hole(passes + UM), "breaks-through", 1,
                20 - 14 * sine - (passes + UM) * cosine);
}

static double top_of(const Plate *plate, FeatureId id)
{
    Solid solids[SOLIDS_MOST];
    Placed *placed = placed_new(plate);
    assert_int_equal(placed_solids(placed, placed_find(placed, id), solids), 1);
    placed_free(placed);
    return solid_box(&solids[0]).most.z;
}

/* Above an inclined face there is no metal: what is cut from the top there begins at the face, at
 * the highest place of its box; what reaches over the break line begins at the top. */
static void test_above_face(void **state)
{
    Bench made = bench(30);
    FeatureId within = put_hole(made.plate, 50, 8, 6), over = put_hole(made.plate, 50, 19, 6);
    assert_true(fabs(top_of(made.plate, within) + (20 - 11) * tan(30 * RADIANS)) < 1e-9);
    assert_true(fabs(top_of(made.plate, over)) < 1e-9);
    plate_free(made.plate);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_side_by_side), cmocka_unit_test(test_slot),
        cmocka_unit_test(test_point),        cmocka_unit_test(test_slots),
        cmocka_unit_test(test_underside),    cmocka_unit_test(test_floor),
        cmocka_unit_test(test_above_face),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
