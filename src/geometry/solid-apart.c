/* solid-apart.c: how far one of two solids that overlap must be moved to be free of the other.
 *
 * For any direction there is a length that frees it, by the supports alone. The least length has no
 * closed form for bodies with rims, so directions that are likely to be it are tried and the best
 * of them improved: b is moved just free along the direction, and the shortest way between the two
 * there is the better direction. Where the least length is found this stays at rest. What comes out
 * always frees b; that nothing shorter does is likely and not proven.
 */
#include "geometry/solid-private.h"

/* Of the tried directions this many are improved, in this many steps at most. */
#define STARTS 4
#define STEPS_IMPROVING 40
#define IDLE_MOST 3
/* mm */
#define SPARE 0.001
#define WAYS_MOST 64

typedef struct Way {
    Space unit;    /* in a's coordinates: b goes along it */
    double length; /* mm, that frees b */
} Way;

typedef struct Ways {
    const SolidPair *pair;
    int count;
    Way all[WAYS_MOST];
} Ways;

/* How far b must go along `unit`: from its rearmost point to a's foremost. */
static double length_to_free(const SolidPair *pair, Space unit)
{
    Space back = placement_own_direction(&pair->b_in_a, space_times(unit, -1));
    Space rear = placement_point(&pair->b_in_a, solid_support(pair->b, back));
    return space_dot(unit, space_minus(solid_support(pair->a, unit), rear));
}

static void try_way(Ways *ways, Space way)
{
    double length = space_length(way);
    if (!(length > TOUCH)) {
        return;
    }
    for (int sign = -1; sign <= 1 && ways->count < WAYS_MOST; sign += 2) {
        Space unit = space_times(way, sign / length);
        ways->all[ways->count++] = (Way){unit, length_to_free(ways->pair, unit)};
    }
}

static Space square_to(Space way, Space axis)
{
    return space_minus(way, space_times(axis, space_dot(way, axis)));
}

/* The faces' normals, the directions square to two edges, and those from middle to middle. */
static void try_likely_ways(Ways *ways)
{
    const Placement *b = &ways->pair->b_in_a;
    const Space of_a[] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    const Space of_b[] = {b->along, b->up, b->normal};
    Space middle_a = {0, 0, (ways->pair->a->bottom + ways->pair->a->top) / 2};
    Space middle_b = {0, 0, (ways->pair->b->bottom + ways->pair->b->top) / 2};
    Space between = space_minus(placement_point(b, middle_b), middle_a);
    for (int i = 0; i < 3; i++) {
        try_way(ways, of_a[i]);
        try_way(ways, of_b[i]);
        for (int k = 0; k < 3; k++) {
            try_way(ways, space_cross(of_a[i], of_b[k]));
        }
    }
    try_way(ways, between);
    try_way(ways, square_to(between, of_a[2]));
    try_way(ways, square_to(between, of_b[2]));
}

/* Moves the shortest of the ways to the front. */
static void bring_forward(Ways *ways, int first)
{
    for (int i = first + 1; i < ways->count; i++) {
        if (ways->all[i].length < ways->all[first].length) {
            Way way = ways->all[i];
            ways->all[i] = ways->all[first];
            ways->all[first] = way;
        }
    }
}

static Touch touch_along(const SolidPair *pair, Way way, double spare)
{
    Touch touch;
    solid_nearest(pair, space_times(way.unit, way.length + spare), INFINITY, &touch);
    return touch;
}

static Way improved(const SolidPair *pair, Way best)
{
    Way way = best;
    int idle = 0;
    for (int step = 0; step < STEPS_IMPROVING && idle < IDLE_MOST; step++) {
        /* Far enough to have a direction of many good digits, near enough to be of this place. */
        Touch touch = touch_along(pair, way, SPARE + way.length / 16);
        Space between = space_minus(touch.on_b, touch.on_a);
        way.unit = space_times(between, 1 / space_length(between));
        way.length = length_to_free(pair, way.unit);
        idle = way.length < best.length - 1e-11 ? 0 : idle + 1;
        if (way.length < best.length) {
            best = way;
        }
    }
    return best;
}

void solid_apart(const SolidPair *pair, Touch *touch)
{
    Ways ways = {.pair = pair};
    try_likely_ways(&ways);
    Way best = {{0, 0, 1}, INFINITY};
    for (int i = 0; i < STARTS; i++) {
        bring_forward(&ways, i);
        Way way = improved(pair, ways.all[i]);
        if (way.length < best.length) {
            best = way;
        }
    }
    /* The point that comes free last, and the place in b that it comes free of. */
    *touch = touch_along(pair, best, 1);
    touch->distance = -greater_of(0, best.length);
    touch->on_b = space_plus(touch->on_a, space_times(best.unit, touch->distance));
}
