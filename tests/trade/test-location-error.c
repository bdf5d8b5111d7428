/* Location error against a brute-force search over the same play, with whole rotations and no
 * linearising, and against random draws. */
#include "trade/location-error.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#define CASES 12

static double random_between(unsigned *seed, double low, double high)
{
    return low + (high - low) * rand_r(seed) / (double)RAND_MAX;
}

static Location random_case(unsigned *seed)
{
    Location location = {0};
    location.locators[0] = (Point){random_between(seed, -20, 20), random_between(seed, -20, 20)};
    double way = random_between(seed, 0, 2 * M_PI), distance = random_between(seed, 8, 80);
    location.locators[1] =
        point_plus(location.locators[0], (Point){distance * cos(way), distance * sin(way)});
    location.clearance[0] = random_between(seed, 0.005, 0.08);
    location.clearance[1] = random_between(seed, 0.005, 0.08);
    location.relieved = rand_r(seed) % 2;
    return location;
}

/* Where a point of the part comes to lie when the part is turned by `turn` about its first hole,
 * and that hole lies `first` off its locator. */
static Point moved(const Location *location, Point first, double turn, Point at)
{
    Point from = point_minus(at, location->locators[0]);
    Point turned = {from.x * cos(turn) - from.y * sin(turn),
                    from.x * sin(turn) + from.y * cos(turn)};
    return point_plus(point_plus(location->locators[0], first), turned);
}

/* Whether the second hole is still about its locator. */
static bool second_goes_on(const Location *location, Point first, double turn)
{
    Point line = point_minus(location->locators[1], location->locators[0]);
    Point off =
        point_minus(moved(location, first, turn, location->locators[1]), location->locators[1]);
    double most = location->clearance[1] / 2 * (1 + 1e-9);
    if (location->relieved)
        return fabs(point_cross(line, off)) / point_length(line) <= most;
    return point_length(off) <= most;
}

/* Every way the part can lie, on a grid: the first hole about its locator, and for each the turn.
 */
static double searched(const Location *location, Point at, double *greatest_turn)
{
    double radius = location->clearance[0] / 2, best = 0;
    double reach = (location->clearance[0] + location->clearance[1]) / 2 /
                   point_distance(location->locators[0], location->locators[1]);
    *greatest_turn = 0;
    for (int i = 0; i < 240; i++) {
        for (int ring = 0; ring <= 4; ring++) {
            double way = i * M_PI / 120, off = radius * ring / 4;
            Point first = {off * cos(way), off * sin(way)};
            for (int t = -200; t <= 200; t++) {
                double turn = reach * t / 200;
                if (!second_goes_on(location, first, turn))
                    continue;
                best = fmax(best, point_distance(moved(location, first, turn, at), at));
                *greatest_turn = fmax(*greatest_turn, fabs(turn) * 180 / M_PI);
            }
        }
    }
    return best;
}

static void play_agrees_with_brute_force(void **state)
{
    unsigned seed = 11;
    for (int i = 0; i < CASES; i++) {
        Location location = random_case(&seed);
        Point at = {random_between(&seed, -60, 100), random_between(&seed, -60, 60)};
        LocationError shift;
        double turn, turn_rss, searched_turn;
        assert_true(location_error_at(&location, at, &shift, NULL));
        assert_true(location_turn(&location, &turn, &turn_rss, NULL));
        double best = searched(&location, at, &searched_turn);
        /* The grid can fall short of the true greatest, never go past it (small turns: 1e-3). */
        if (best > shift.play * 1.001 || best < shift.play * 0.985)
            fail_msg("case %d: %.6f, by search %.6f", i, shift.play, best);
        if (searched_turn > turn * 1.0001 || searched_turn < turn * 0.985)
            fail_msg("case %d: turn %.6f, by search %.6f", i, turn, searched_turn);
    }
}

static Point random_in_circle(unsigned *seed, double radius)
{
    for (;;) {
        Point p = {random_between(seed, -radius, radius), random_between(seed, -radius, radius)};
        if (point_length(p) <= radius)
            return p;
    }
}

typedef struct Draw {
    double shift;
    bool goes_on;
} Draw;

/* One part on one plate: holes and locators off their places, then any way the play allows. */
static Draw draw(const Location *location, Point at, unsigned *seed)
{
    Point line = point_minus(location->locators[1], location->locators[0]);
    double distance = point_length(line);
    Point unit = point_times(line, 1 / distance), normal = {-unit.y, unit.x};
    Point off[2];
    for (int i = 0; i < 2; i++)
        off[i] = point_plus(random_in_circle(seed, location->plate_position[i] / 2),
                            random_in_circle(seed, location->part_position[i] / 2));
    Point first = point_plus(off[0], random_in_circle(seed, location->clearance[0] / 2));
    double across =
        point_dot(off[1], normal) + random_between(seed, -1, 1) * location->clearance[1] / 2;
    double along = point_dot(first, unit);
    Point play = {along - point_dot(off[1], unit), across - point_dot(off[1], normal)};
    double turn = (across - point_dot(first, normal)) / distance;
    Point to = moved(location, first, turn, at);
    Point base = random_in_circle(seed, location->repeat_shift);
    return (Draw){point_distance(point_plus(to, base), at),
                  location->relieved || point_length(play) <= location->clearance[1] / 2};
}

static void random_draws_stay_within(void **state)
{
    unsigned seed = 23;
    for (int i = 0; i < CASES; i++) {
        Location location = random_case(&seed);
        for (int k = 0; k < 2; k++) {
            location.plate_position[k] = random_between(&seed, 0, 0.02);
            location.part_position[k] = random_between(&seed, 0, 0.03);
        }
        location.repeat_shift = 0.005;
        Point at = {random_between(&seed, -60, 100), random_between(&seed, -60, 60)};
        LocationError shift;
        assert_true(location_error_at(&location, at, &shift, NULL));
        assert_true(shift.root_sum_square <= shift.greatest);
        int taken = 0, within = 0;
        double largest = 0;
        for (int d = 0; d < 20000; d++) {
            Draw drawn = draw(&location, at, &seed);
            if (!drawn.goes_on)
                continue;
            taken++;
            within += drawn.shift <= shift.root_sum_square;
            largest = fmax(largest, drawn.shift);
        }
        assert_true(taken > 100);
        if (largest > shift.greatest * 1.001)
            fail_msg("case %d: a draw of %.5f passes the greatest %.5f", i, largest,
                     shift.greatest);
        if (within < taken * 0.95)
            fail_msg("case %d: only %d of %d draws within the root sum square", i, within, taken);
    }
}

/* Worked out by hand: at the first locator the shift is the first play's radius. At a point twice
 * as far as the second locator, both radii across: r1 + 2 (r1 + r2). */
static void simple_cases_are_known(void **state)
{
    Location location = {.locators = {{0, 0}, {50, 0}}, .clearance = {0.02, 0.04}};
    LocationError shift;
    assert_true(location_error_at(&location, (Point){0, 0}, &shift, NULL));
    assert_true(fabs(shift.greatest - 0.01) < 1e-6);
    assert_true(location_error_at(&location, (Point){50, 0}, &shift, NULL));
    assert_true(fabs(shift.greatest - 0.02) < 1e-6);
    assert_true(location_error_at(&location, (Point){100, 0}, &shift, NULL));
    assert_true(fabs(shift.greatest - 0.05) < 1e-6);
    double turn, rss;
    assert_true(location_turn(&location, &turn, &rss, NULL));
    assert_true(fabs(turn - 0.03 / 50 * 180 / M_PI) < 1e-9);
    /* 100 mm of stainless against aluminium, 13.3 um per m and degree apart, 10 degrees: 13.3 um.
     */
    location = (Location){.locators = {{0, 0}, {50, 0}},
                          .temperature = 10,
                          .part_expansion = 10.3,
                          .plate_expansion = 23.6};
    assert_true(location_error_at(&location, (Point){0, 100}, &shift, NULL));
    assert_true(fabs(shift.greatest - 0.0133) < 1e-9);
    assert_true(fabs(shift.temperature - shift.root_sum_square) < 1e-12);
    /* A lean of 1 in 1000 (0.0573 degrees) over 20 mm: 0.02 mm. */
    location =
        (Location){.locators = {{0, 0}, {50, 0}}, .height = 20, .squareness = 180 / M_PI / 1000};
    assert_true(location_error_at(&location, (Point){3, 4}, &shift, NULL));
    assert_true(fabs(shift.greatest - 0.02) < 1e-6);
    /* A base that turns 0.01 degrees, 100 mm away: 0.01745 mm. */
    location = (Location){.locators = {{0, 0}, {50, 0}}, .repeat_turn = 0.01, .base = {-100, 0}};
    assert_true(location_error_at(&location, (Point){0, 0}, &shift, NULL));
    assert_true(fabs(shift.greatest - 0.0174533) < 1e-6);
}

static void the_impossible_is_refused(void **state)
{
    Location location = {.locators = {{1, 1}, {1, 1}}};
    LocationError shift;
    Error error = {0};
    assert_false(location_error_at(&location, (Point){0, 0}, &shift, &error));
    assert_int_equal(error.kind, ERROR_GEOMETRY);
    location.locators[1].x = 9;
    location.clearance[0] = -0.01;
    assert_false(location_error_at(&location, (Point){0, 0}, &shift, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(play_agrees_with_brute_force),
        cmocka_unit_test(random_draws_stay_within),
        cmocka_unit_test(simple_cases_are_known),
        cmocka_unit_test(the_impossible_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
