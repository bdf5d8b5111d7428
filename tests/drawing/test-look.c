#include "cases.h"

#include "drawing/look.h"

#include <math.h>

/* WCAG 2.1, relative luminance and contrast ratio (formulas from memory). */
static double channel(double value)
{
    return value <= 0.03928 ? value / 12.92 : pow((value + 0.055) / 1.055, 2.4);
}

static double luminance(Colour colour)
{
    return 0.2126 * channel(colour.red) + 0.7152 * channel(colour.green) +
           0.0722 * channel(colour.blue);
}

static double contrast(Colour a, Colour b)
{
    double first = luminance(a) + 0.05, second = luminance(b) + 0.05;
    return first > second ? first / second : second / first;
}

/* Success criterion 1.4.3: at least 4.5 to 1, on the ground and on the metal. */
static void test_contrast(void **state)
{
    for (int dark = 0; dark < 2; dark++) {
        Mark metal = {.kind = MARK_FILL, .role = ROLE_STOCK};
        for (int role = 0; role < ROLE_COUNT; role++) {
            Mark mark = {.kind = MARK_STROKE, .role = (MarkRole)role};
            Colour colour = look_colour(&mark, dark);
            assert_true(contrast(colour, look_ground(dark)) >= 4.5);
            assert_true(contrast(colour, look_colour(&metal, dark)) >= 4.5);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_contrast)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
