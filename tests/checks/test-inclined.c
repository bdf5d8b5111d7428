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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tap_through_where_the_face_is_low),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
