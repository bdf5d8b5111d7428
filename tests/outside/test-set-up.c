/* Drill points, sine bars, bevels, cusps and expansions against handbook figures. */
#include "published.h"
#include "trade/bevel.h"
#include "trade/drill.h"
#include "trade/figure.h"
#include "trade/material.h"

#include <glib.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

static void drill_points(void **state)
{
    published("length of a 118 degree point, of the diameter", drill_point_length(1, 118), "0.3004",
              "", "1 / (2 tan 59), handbook", FROM_MEMORY);
    published("length of a 135 degree point, of the diameter", drill_point_length(1, 135), "0.2071",
              "", "1 / (2 tan 67.5), handbook", FROM_MEMORY);
    published("length of a 90 degree spot, of the diameter", drill_point_length(1, 90), "0.5", "",
              "1 / (2 tan 45), handbook", FROM_MEMORY);
}

static Length stack_of(const char *length, const char *angle)
{
    const char *argv[] = {"sine", "--length", length, "--angle", angle};
    Figure figure;
    assert_true(figure_work_out(5, (char **)(uintptr_t)argv, &figure, NULL));
    return figure_result(&figure, "stack")->length;
}

static void sine_bars(void **state)
{
    published_length("sine bar 5 in at 6 degrees", stack_of("5in", "6"), "0.52264", "in",
                     "L sin(angle), handbook table of constants", FROM_MEMORY);
    published_length("sine bar 100 mm at 6 degrees", stack_of("100mm", "6"), "10.4528", "mm",
                     "L sin(angle), handbook table of constants", FROM_MEMORY);
    published_length("sine bar 5 in at 30 degrees", stack_of("5in", "30"), "2.50000", "in",
                     "L sin(angle), handbook table of constants", FROM_MEMORY);
    published_length("sine bar 5 in at 10 degrees 15 minutes", stack_of("5in", "10\xc2\xb0 15'"),
                     "0.88972", "in", "L sin(angle), handbook table of constants", FROM_MEMORY);
}

static void bevels_and_cusps(void **state)
{
    Bevel bevel = {0.120, 0.015, 6, 2};
    published("bevel of 6 degrees a side, blade 0.120 in, edge 0.015 in: height",
              bevel_height(&bevel), "0.4995", "in", "(t - e) / (2 tan(angle))", FROM_MEMORY);
    published("0.001 in thicker stock at 5 degrees: bevel higher by",
              bevel_height_for_thicker(0.001, 5), "0.0114", "in", "change / tan(angle)",
              FROM_MEMORY);
    published("cusp of a 3/16 in ball cutter at 0.010 in step", cusp_height(0.1875, 0.010),
              "0.000133", "in", "R - sqrt(R2 - s2/4)", FROM_MEMORY);
}

static void expansions(void **state)
{
    static const struct {
        const char *name, *figure, *expansion;
    } rows[] = {{"6061-T6", "expansion of aluminium 6061", "23.6"},
                {"1018", "expansion of carbon steel", "11.7"},
                {"420 hardened", "expansion of hardened stainless", "10.3"},
                {"Ti-6Al-4V", "expansion of titanium 6Al-4V", "8.6"}};
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        const Material *material = material_find(rows[i].name, NULL);
        assert_non_null(material);
        published(rows[i].figure, material->expansion, rows[i].expansion, "um/m a degree C",
                  "handbook", FROM_MEMORY);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(drill_points),
        cmocka_unit_test(sine_bars),
        cmocka_unit_test(bevels_and_cusps),
        cmocka_unit_test(expansions),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
