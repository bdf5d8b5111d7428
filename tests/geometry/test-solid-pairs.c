/* Random pairs of convex solids, near and far, overlapping or not. That an answer is the shortest
 * is proven for each pair: its points lie in the solids, and no place of either lies beyond the
 * planes through them square to the way between. Besides, no place of a dense sampling of the
 * surface is nearer. PINPLATE_LONG=1 for 100,000 pairs instead of 3,000. */
#include "solid-cases.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

/* mm: of the distance, and of places, whose solids are up to 100 mm away from the origin. */
#define EXACT 1e-9
#define NEXT_TO_NOTHING 1e-7

static int pair_count(void)
{
    return getenv("PINPLATE_LONG") ? 100000 : 3000;
}

static void assert_apart(const Solid *a, const Solid *b, const SolidGap *gap, int number)
{
    Space ignored, way = space_minus(gap->on_b, gap->on_a);
    double length = space_length(way);
    Space unit = space_times(way, 1 / length);
    double off_a = distance_to_solid(a, gap->on_a, &ignored);
    double off_b = distance_to_solid(b, gap->on_b, &ignored);
    double between = -reach_of_solid(b, space_times(unit, -1)) - reach_of_solid(a, unit);
    if (off_a > EXACT || off_b > EXACT || fabs(length - gap->distance) > EXACT) {
        fail_msg("pair %d: %.12g apart, points %.3g and %.3g off, %.12g from each other", number,
                 gap->distance, off_a, off_b, length);
    }
    /* A short way's direction is no better than rounding over its length. */
    if (between < gap->distance - EXACT - 1e-12 / gap->distance) {
        fail_msg("pair %d: %.15g apart, but only %.15g is proven", number, gap->distance, between);
    }
    assert_true(gap->exact);
}

/* The distance from b of a place of a that goes towards b: by turns reflected at both, which comes
 * to a place of both where there is one (Douglas and Rachford's method, from memory). */
static double nearest_by_turns(const Solid *a, const Solid *b)
{
    Space p = placement_point(&a->placement, (Space){0, 0, (a->bottom + a->top) / 2});
    double distance = INFINITY;
    for (int i = 0; i < 20000 && distance > NEXT_TO_NOTHING; i++) {
        Space on_a, on_b, ignored;
        distance_to_solid(a, p, &on_a);
        distance = distance_to_solid(b, on_a, &ignored);
        distance_to_solid(b, space_minus(space_times(on_a, 2), p), &on_b);
        p = space_plus(p, space_minus(on_b, on_a));
    }
    return distance;
}

/* Moved as the gap says, b is free of a. */
static void assert_frees(const Solid *a, const Solid *b, const SolidGap *gap)
{
    Space move = space_minus(gap->on_a, gap->on_b);
    assert_true(fabs(space_length(move) + gap->distance) < EXACT);
    if (gap->distance < -1e-6) {
        Space unit = space_times(move, -1 / gap->distance);
        double rear = -reach_of_solid(b, space_times(unit, -1)) - gap->distance;
        assert_true(rear - reach_of_solid(a, unit) > -EXACT);
    }
    assert_false(gap->exact);
}

static void assert_overlap(const Solid *a, const Solid *b, const SolidGap *gap, int number)
{
    double together = nearest_by_turns(a, b);
    if (together > NEXT_TO_NOTHING) {
        fail_msg("pair %d: said to overlap by %.9g, but %.9g apart", number, -gap->distance,
                 together);
    }
    assert_frees(a, b, gap);
}

/* The least distance from b of a dense sampling of a's surface, taken closer round the best. */
static double sampled_distance(const Solid *a, const Solid *b)
{
    double best = INFINITY, at[3] = {0, 0, 0}, step[3] = {1.0 / 64, 0.125, 0.25};
    Space ignored;
    for (int i = 0; i < 64 * 9 * 5; i++) {
        const double try[] = {(i % 64) / 64.0, (i / 64 % 9) / 8.0, (i / 576) / 4.0};
        double distance = distance_to_solid(b, place_on_solid(a, try[0], try[1], try[2]), &ignored);
        if (distance < best) {
            best = distance;
            at[0] = try[0];
            at[1] = try[1];
            at[2] = try[2];
        }
    }
    for (int round = 0; round < 40; round++) {
        double middle[] = {at[0], at[1], at[2]};
        for (int i = 0; i < 27; i++) {
            double round_it = middle[0] + step[0] * (i % 3 - 1);
            double up = fmin(1, fmax(0, middle[1] + step[1] * (i / 3 % 3 - 1)));
            double inwards = fmin(1, fmax(0, middle[2] + step[2] * (i / 9 - 1)));
            double distance =
                distance_to_solid(b, place_on_solid(a, round_it, up, inwards), &ignored);
            if (distance < best) {
                best = distance;
                at[0] = round_it;
                at[1] = up;
                at[2] = inwards;
            }
        }
        for (int i = 0; i < 3; i++) {
            step[i] *= 0.7;
        }
    }
    return best;
}

static void check_pair(const Solid *a, const Solid *b, int number)
{
    SolidGap gap, back;
    solid_gap(a, b, &gap);
    solid_gap(b, a, &back);
    if (gap.distance > 0) {
        assert_apart(a, b, &gap, number);
        double sampled = sampled_distance(a, b);
        if (sampled < gap.distance - EXACT || sampled > gap.distance + 1) {
            fail_msg("pair %d: %.12g apart, %.12g sampled", number, gap.distance, sampled);
        }
        if (fabs(back.distance - gap.distance) > 2 * EXACT) {
            fail_msg("pair %d: %.12g apart, and %.12g back", number, gap.distance, back.distance);
        }
    } else {
        assert_overlap(a, b, &gap, number);
        if (back.distance > 0) {
            fail_msg("pair %d overlaps one way alone", number);
        }
    }
}

static void check_spread(double spread, int count, uint64_t seed)
{
    Random random = {seed};
    int overlaps = 0;
    for (int i = 0; i < count; i++) {
        Solid a = random_solid(&random, spread), b = random_solid(&random, spread);
        SolidGap gap;
        assert_true(solid_check(&a, NULL) && solid_check(&b, NULL));
        check_pair(&a, &b, i);
        solid_gap(&a, &b, &gap);
        overlaps += gap.distance <= 0;
    }
    print_message("# %d of %d overlap at a spread of %g mm\n", overlaps, count, spread);
}

static void test_close(void **state)
{
    check_spread(20, pair_count() / 3, 1);
}

static void test_wide(void **state)
{
    check_spread(60, pair_count() / 3, 2);
}

/* Solids that lie almost the same way, as those on a face of little slope, down to none. */
static void test_almost_parallel(void **state)
{
    Random random = {3};
    for (int i = 0; i < pair_count() / 3; i++) {
        Solid a = random_solid(&random, 40), b = random_solid(&random, 40);
        double lean = random_below(&random, 10) ? pow(10, random_between(&random, -14, -1)) : 0;
        Placement *own = &b.placement;
        Space normal = space_plus(a.placement.normal, space_times(a.placement.along, lean));
        own->up = a.placement.up;
        own->normal = space_times(normal, 1 / space_length(normal));
        own->along = space_cross(own->up, own->normal);
        check_pair(&a, &b, i);
    }
}

/* Thick enough for a micrometre not to go out on the other side, and with no edge sharper than a
 * square one, past which it could slip. */
static bool has_body(const Solid *solid)
{
    return solid->top - solid->bottom > 0.1 && solid->growth_bottom > 0.1 &&
           solid->growth_bottom == solid->growth_top;
}

/* A touch and a micrometre to either side of it: b is taken along the way between, which stays
 * theirs, until they are a micrometre apart, and a micrometre through each other. */
static void test_just(void **state)
{
    Random random = {4};
    for (int i = 0; i < pair_count() / 3; i++) {
        Solid a = random_solid(&random, 50), b = random_solid(&random, 50);
        SolidGap gap, moved;
        solid_gap(&a, &b, &gap);
        if (gap.distance < 1 || !has_body(&a) || !has_body(&b)) {
            continue;
        }
        Space unit = space_times(space_minus(gap.on_a, gap.on_b), 1 / gap.distance);
        Space was = b.placement.origin;
        for (int through = 0; through < 2; through++) {
            double move = gap.distance + (through ? 0.001 : -0.001);
            b.placement.origin = space_plus(was, space_times(unit, move));
            solid_gap(&a, &b, &moved);
            /* Off an edge a shorter way out goes sideways. */
            double most = through ? 0 : 0.001, least = through ? -0.001 : 0.001;
            if (moved.distance > most + 1e-8 || moved.distance < least - 1e-8) {
                fail_msg("pair %d: %.12g, from %g to %g expected", i, moved.distance, least, most);
            }
            assert_true(!through || moved.distance < -1e-6);
            if (through) {
                assert_frees(&a, &b, &moved);
            }
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_close),
        cmocka_unit_test(test_wide),
        cmocka_unit_test(test_almost_parallel),
        cmocka_unit_test(test_just),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
