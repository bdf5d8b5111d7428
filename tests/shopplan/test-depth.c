/* How deep tools go, against figures worked out from the handbook's. */
#include "shopplan/depth.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void assert_mm(double found, double expected, double within)
{
    if (!(fabs(found - expected) <= within))
        fail_msg("%.6f mm, not %.6f", found, expected);
}

static DepthContext in_20_mm(double drilled, bool through)
{
    return (DepthContext){20, 0, drilled, through, METAL_ALUMINIUM};
}

/* The length of a 118 degree point is 0.3004 D, of a 135 degree one 0.2071 D (handbook; from
 * memory); 1 mm comes out below (common practice, no source). */
static void test_drill(void **unused)
{
    Step step = {.kind = STEP_DRILL, .diameter = MM(10), .through = true};
    DepthContext context = in_20_mm(0, false);
    ToolDepth depth = tool_depth(&step, &context);
    assert_true(depth.through);
    assert_mm(depth.full, 21, 1e-9);
    assert_mm(depth.tip, 21 + 3.004, 0.001);
    assert_mm(depth.peck, 0, 0);
    step.point = 135 * ANGLE_DEGREE;
    assert_mm(tool_depth(&step, &context).tip, 21 + 2.071, 0.001);
    step.through = false;
    step.depth = MM(12);
    assert_mm(tool_depth(&step, &context).full, 12, 1e-9);
    assert_mm(tool_depth(&step, &context).tip, 12 + 2.071, 0.001);
    /* A flat-ended one as drawn. */
    step.point = 0;
    assert_mm(tool_depth(&step, &context).tip, 12, 1e-9);
    /* A blind one that is as deep as the metal comes through. */
    step.depth = MM(20);
    assert_true(tool_depth(&step, &context).through);
}

/* More than three diameters are pecked: common practice, no source. */
static void test_peck(void **unused)
{
    Step step = {.kind = STEP_DRILL, .diameter = MM(4), .depth = MM(12)};
    DepthContext context = in_20_mm(0, false);
    assert_mm(tool_depth(&step, &context).peck, 0, 0);
    step.depth = MM(12) + 1;
    assert_mm(tool_depth(&step, &context).peck, 4, 1e-9);
    context.metal_kind = METAL_STEEL;
    assert_mm(tool_depth(&step, &context).peck, 2, 1e-9);
}

static ToolDepth tapped(const char *thread, double diameter, double depth, double drilled)
{
    Step step = {.kind = STEP_TAP, .diameter = MM(diameter), .depth = MM(depth)};
    step.thread = (char *)thread;
    DepthContext context = in_20_mm(drilled, false);
    return tool_depth(&step, &context);
}

/* M6 x 1, 10 mm of full thread. Chamfers: plug 5 threads, spiral flute 3, bottoming 2 (ASME B94.9,
 * from memory); one pitch free; a plug tap of this size has a male centre of half its diameter. */
static void test_tap(void **unused)
{
    ToolDepth depth = tapped("M6", 6, 10, 19);
    assert_int_equal(depth.tap, STEP_TAP_PLUG);
    assert_mm(depth.full, 10, 1e-9);
    assert_mm(depth.tip, 10 + 5 + 3, 1e-9);
    depth = tapped("M6", 6, 10, 18.9);
    assert_int_equal(depth.tap, STEP_TAP_SPIRAL_FLUTE);
    assert_mm(depth.tip, 13, 1e-9);
    depth = tapped("M6", 6, 10, 13.9);
    assert_int_equal(depth.tap, STEP_TAP_BOTTOMING);
    assert_mm(depth.tip, 12, 1e-9);
    assert_mm(depth.missing, 0, 0);
    /* A millimetre too shallow even for that. */
    depth = tapped("M6", 6, 10, 12);
    assert_int_equal(depth.tap, STEP_TAP_BOTTOMING);
    assert_mm(depth.missing, 1, 1e-9);
    assert_mm(depth.tip, 11, 1e-9);
    assert_mm(depth.full, 9, 1e-9);
    assert_true(tapped("Q17", 6, 10, 19).pitch == 0);
    assert_mm(tapped("8-32", 4.1656, 5.8, 19).pitch, 25.4 / 32, 1e-9);
    /* A coil insert's tap has the pitch of the thread it carries. */
    assert_mm(tapped("coil 8-32", 5.2, 5.8, 19).pitch, 25.4 / 32, 1e-9);
}

/* Through: full thread to the far side and a pitch beyond. A tap that is named is taken. */
static void test_through_tap(void **unused)
{
    Step step = {.kind = STEP_TAP, .diameter = MM(6), .through = true, .tap = STEP_TAP_BOTTOMING};
    step.thread = (char *)"M6";
    DepthContext context = in_20_mm(21, true);
    ToolDepth depth = tool_depth(&step, &context);
    assert_int_equal(depth.tap, STEP_TAP_BOTTOMING);
    assert_mm(depth.full, 21, 1e-9);
    assert_mm(depth.tip, 23, 1e-9);
}

static void test_reamer(void **unused)
{
    Step step = {.kind = STEP_REAM, .diameter = MM(8), .through = true};
    DepthContext context = in_20_mm(21, true);
    ToolDepth depth = tool_depth(&step, &context);
    assert_mm(depth.full, 21, 1e-9);
    assert_mm(depth.tip, 21 + 1.5, 1e-9);
    step.through = false;
    step.depth = MM(10);
    context = in_20_mm(12, false);
    depth = tool_depth(&step, &context);
    assert_mm(depth.full, 10, 1e-9);
    assert_mm(depth.tip, 11.5, 1e-9);
    /* Never on the drill's cone. */
    context = in_20_mm(11, false);
    depth = tool_depth(&step, &context);
    assert_mm(depth.tip, 11, 1e-9);
    assert_mm(depth.full, 9.5, 1e-9);
    assert_mm(depth.missing, 0.5, 1e-9);
}

/* A 90 degree cone is half as deep as wide. */
static void test_cones(void **unused)
{
    Step step = {.kind = STEP_COUNTERSINK, .diameter = MM(12), .depth = MM(6)};
    step.point = 90 * ANGLE_DEGREE;
    DepthContext context = in_20_mm(21, true);
    assert_mm(tool_depth(&step, &context).tip, 6, 1e-9);
    assert_mm(tool_depth(&step, &context).full, 0, 1e-9);
    step.depth = MM(6.5);
    assert_mm(tool_depth(&step, &context).full, 0.5, 1e-9);
    context = in_20_mm(0, false);
    assert_mm(spot_depth(5, 6, &context).tip, 2, 1e-9);
    assert_mm(spot_depth(20, 6, &context).tip, 3, 1e-9);
    context.start = 8; /* on the floor of a slot */
    assert_mm(spot_depth(5, 6, &context).tip, 10, 1e-9);
    context.metal = 9;
    assert_mm(spot_depth(5, 6, &context).tip, 8.5, 1e-9);
}

/* A face inclined by 30 degrees along the plate's front edge, in stock 20 mm thick: 10 mm down the
 * slope its surface is 10 sin 30 = 5 mm below the top, so that 15 mm are left upright and
 * 15 / cos 30 along the axis; a hole of radius 2 ends r tan 30 later on its upper side. */
static void test_inclined(void **unused)
{
    Stock stock = {MM(100), MM(50), MM(20), METAL_ALUMINIUM, NULL};
    Record *face = record_new(9, RECORD_FACE);
    face->face.kind = FACE_INCLINED;
    face->face.from = (Place){MM(100), MM(20)};
    face->face.to = (Place){0, MM(20)};
    face->face.angle = 30 * ANGLE_DEGREE;
    face->face.extent = MM(20);
    Frame frame = frame_of(&stock, face);
    double metal = metal_below(&frame, &stock, (Point){-50, -10}, 2);
    assert_mm(metal, 15 / cos(G_PI / 6) + 2 * tan(G_PI / 6), 1e-9);
    record_unref(face);
    Record *top = record_new(ID_TOP, RECORD_FACE);
    frame = frame_of(&stock, top);
    assert_mm(metal_below(&frame, &stock, (Point){50, 10}, 2), 20, 1e-12);
    record_unref(top);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_drill),    cmocka_unit_test(test_peck),
        cmocka_unit_test(test_tap),      cmocka_unit_test(test_through_tap),
        cmocka_unit_test(test_reamer),   cmocka_unit_test(test_cones),
        cmocka_unit_test(test_inclined),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
