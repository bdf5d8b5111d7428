/* Random solids of outlines, with arcs and openings, against convex ones and each other. That an
 * answer is not too short: its points lie in the solids. That it is not too long: no place of a
 * dense sampling is nearer, nor any of many about the nearest. How near a place is to an outline's
 * solid follows from the outline's own distance, which is tested against GEOS, and the height.
 * PINPLATE_LONG=1 for 100,000 pairs instead of 3,000. */
#include "solid-cases.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#define WITHIN (2 * SOLID_TOLERANCE)
/* All over a solid, and as many about the place that is said to be nearest. */
#define SAMPLES 300

static int pair_count(void)
{
    return getenv("PINPLATE_LONG") ? 100000 : 3000;
}

/* A plate or nest of a random outline; the caller frees the outline. */
static Solid random_plate(Random *random, double spread)
{
    const OutlineKind kind = {3, 10, 8, 25, 0.4, 0.5, 0.4};
    Outline *outline = random_outline(random, kind);
    double growth = random_below(random, 2) ? random_between(random, 0, 3) : 0;
    Shape shape = shape_outline(outline, POSE_IDENTITY, growth);
    Placement placement = random_placement(random, spread);
    return solid_of_shape(&shape, &placement, -random_between(random, 0, 12), 0);
}

/* The distance of a place from a solid of any core that has one growth. */
static double distance_to_any(const Solid *solid, Space p)
{
    Space ignored;
    if (solid->core != CORE_OUTLINE) {
        return distance_to_solid(solid, p, &ignored);
    }
    Space own = placement_own_point(&solid->placement, p);
    double flat = outline_distance(solid->outline, (Point){own.x, own.y}, NULL) - solid->growth_top;
    double height = fmax(solid->bottom - own.z, own.z - solid->top);
    return hypot(fmax(0, flat), fmax(0, height));
}

/* A place of an outline's solid: on or near its border, or anywhere in its box where that is
 * within. */
static bool place_on_plate(const Solid *solid, Random *random, Space *place)
{
    size_t count;
    const Vertex *ring = outline_ring(
        solid->outline, random_below(random, outline_ring_count(solid->outline)), &count);
    size_t i = random_below(random, count);
    const Vertex *from = &ring[i], *to = &ring[(i + 1) % count];
    double part = random_between(random, 0, 1), angle = random_between(random, 0, 2 * M_PI);
    Point p = {from->x + part * (to->x - from->x), from->y + part * (to->y - from->y)};
    double growth = solid->growth_top * (random_below(random, 2) ? 1 : 0.999);
    p = point_plus(p, (Point){growth * cos(angle), growth * sin(angle)});
    if (random_below(random, 4) == 0) {
        Box box = outline_box(solid->outline);
        p = (Point){random_between(random, box.x0, box.x1), random_between(random, box.y0, box.y1)};
    }
    double up = random_below(random, 2) ? random_between(random, 0, 1) : random_below(random, 2);
    Space own = {p.x, p.y, solid->bottom + up * (solid->top - solid->bottom)};
    *place = placement_point(&solid->placement, own);
    return outline_distance(solid->outline, p, NULL) <= solid->growth_top;
}

static Space any_place(const Solid *solid, Random *random)
{
    Space place;
    if (solid->core != CORE_OUTLINE) {
        double up = random_below(random, 2) ? random_between(random, 0, 1)
                                            : (double)random_below(random, 2);
        return place_on_solid(solid, random_between(random, 0, 1), up,
                              random_between(random, 0, 1));
    }
    while (!place_on_plate(solid, random, &place)) {
        /* Try again. */
    }
    return place;
}

/* The least distance from b of places of a: all over, and then about the nearest. */
static double sampled_distance(const Solid *a, const Solid *b, Random *random, Space near)
{
    double best = INFINITY;
    for (int i = 0; i < SAMPLES; i++) {
        Space place = any_place(a, random);
        double distance = distance_to_any(b, place);
        if (distance < best) {
            best = distance;
        }
    }
    for (int i = 0; i < SAMPLES; i++) {
        double size = pow(10, random_between(random, -6, 0));
        Space step = {random_between(random, -size, size), random_between(random, -size, size),
                      random_between(random, -size, size)};
        Space place = space_plus(near, step);
        if (distance_to_any(a, place) <= 0) {
            best = fmin(best, distance_to_any(b, place));
        }
    }
    return best;
}

/* How near to b a place of a comes by steps at random that bring it nearer: to nothing, where there
 * is a place of both. */
static double stepped_distance(const Solid *a, const Solid *b, Random *random)
{
    double least = INFINITY;
    for (int start = 0; start < 40 && least > 0; start++) {
        Space place = any_place(a, random);
        double distance = distance_to_any(b, place);
        for (int i = 0; i < 3000 && distance > 0; i++) {
            double size = pow(10, random_between(random, -4, 1));
            Space step = {random_between(random, -size, size), random_between(random, -size, size),
                          random_between(random, -size, size)};
            Space next = space_plus(place, step);
            double nearer = distance_to_any(b, next);
            if (nearer < distance && distance_to_any(a, next) <= 0) {
                distance = nearer;
                place = next;
            }
        }
        least = fmin(least, distance);
    }
    return least;
}

static void check_pair(const Solid *a, const Solid *b, Random *random, int number)
{
    SolidGap gap, back;
    solid_gap(a, b, &gap);
    solid_gap(b, a, &back);
    double sampled = sampled_distance(a, b, random, gap.on_a);
    sampled = fmin(sampled, sampled_distance(b, a, random, gap.on_b));
    if (gap.distance <= 0) {
        /* A touch of two things that are thin is not stepped on, but come near to. */
        double stepped = fmin(sampled, stepped_distance(a, b, random));
        stepped = stepped > 0 ? fmin(stepped, stepped_distance(b, a, random)) : stepped;
        if (stepped > 0.01 || back.distance > WITHIN) {
            fail_msg("pair %d: said to overlap by %g, but %g stepped", number, -gap.distance,
                     stepped);
        }
        return;
    }
    if (sampled < gap.distance - WITHIN) {
        fail_msg("pair %d: %.9g apart, but %.9g sampled", number, gap.distance, sampled);
    }
    double off_a = distance_to_any(a, gap.on_a), off_b = distance_to_any(b, gap.on_b);
    if (off_a > WITHIN || off_b > WITHIN ||
        fabs(space_distance(gap.on_a, gap.on_b) - gap.distance) > 1e-9) {
        fail_msg("pair %d: %.9g apart, but its points are %g and %g off", number, gap.distance,
                 off_a, off_b);
    }
    if (fabs(gap.distance - fmax(0, back.distance)) > WITHIN) {
        fail_msg("pair %d: %.9g apart, and %.9g back", number, gap.distance, back.distance);
    }
    SolidGap within;
    assert_true(solid_gap_within(a, b, gap.distance + WITHIN, &within));
    assert_false(solid_gap_within(a, b, gap.distance - WITHIN, &within) &&
                 within.distance > gap.distance - WITHIN);
}

static void test_plate_and_convex(void **state)
{
    Random random = {11};
    int overlaps = 0;
    for (int i = 0; i < pair_count() * 3 / 4; i++) {
        Solid a = random_plate(&random, 15), b = random_solid(&random, 25);
        SolidGap gap;
        check_pair(&a, &b, &random, i);
        overlaps += solid_gap_within(&a, &b, 0, &gap);
        outline_unref((Outline *)(uintptr_t)a.outline);
    }
    print_message("# %d of %d overlap\n", overlaps, pair_count() * 3 / 4);
}

static void test_two_plates(void **state)
{
    Random random = {12};
    int overlaps = 0;
    for (int i = 0; i < pair_count() / 20; i++) {
        Solid a = random_plate(&random, 15), b = random_plate(&random, 35);
        SolidGap gap;
        check_pair(&a, &b, &random, i);
        overlaps += solid_gap_within(&a, &b, 0, &gap);
        outline_unref((Outline *)(uintptr_t)a.outline);
        outline_unref((Outline *)(uintptr_t)b.outline);
    }
    print_message("# %d of %d overlap\n", overlaps, pair_count() / 20);
}

/* Drawn out one way, either way up and turned over. */
static void test_one_way(void **state)
{
    Random random = {13};
    for (int i = 0; i < pair_count() / 5; i++) {
        Solid a = random_plate(&random, 15), b = random_plate(&random, 35);
        Solid bar = random_solid(&random, 35);
        const Solid *other = random_below(&random, 2) ? &b : &bar;
        double angle = random_between(&random, 0, 2 * M_PI);
        double up = random_below(&random, 2) ? 1 : -1, over = random_below(&random, 2) ? 1 : -1;
        Placement turned = {{0, 0, 0},
                            {cos(angle), sin(angle), 0},
                            {-over * sin(angle), over * cos(angle), 0},
                            {0, 0, up}};
        turned = placement_after(&a.placement, &turned);
        turned.origin = b.placement.origin;
        b.placement = bar.placement = turned;
        bar.growth_bottom = bar.growth_top;
        check_pair(&a, other, &random, i);
        outline_unref((Outline *)(uintptr_t)a.outline);
        outline_unref((Outline *)(uintptr_t)b.outline);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plate_and_convex),
        cmocka_unit_test(test_two_plates),
        cmocka_unit_test(test_one_way),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
