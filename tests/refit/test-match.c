/* Matching: against trying every assignment on small plates, and against known positions planted
 * among thousands of holes. */
#include "refit/match.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* --- small plates, every assignment --------------------------------------------------------- */

#define SMALL_PART 4
#define SMALL_PLATE 7
#define CHOICES (2 * SMALL_PLATE + 1) /* none, or a plate hole that holds or locates */

typedef struct Small {
    MatchQuery query;
    MatchHole holes[SMALL_PLATE];
    HoleOptions options[SMALL_PLATE * MATCH_HOLES_MOST];
} Small;

static HoleOption random_option(uint32_t *seed, double chance, double play)
{
    HoleOption option = {.serves = random_between(seed, 0, 1) < chance};
    option.play = play * random_between(seed, 0.5, 1.5);
    option.play_least = option.play / 3;
    return option;
}

static Point random_point(uint32_t *seed, double width, double height)
{
    return (Point){random_between(seed, 0, width), random_between(seed, 0, height)};
}

static Pose random_pose(uint32_t *seed, double size)
{
    double angle = random_between(seed, -M_PI, M_PI);
    return (Pose){random_between(seed, 0, size), random_between(seed, 0, size), cos(angle),
                  sin(angle), random_between(seed, 0, 1) < 0.5};
}

/* Some of the plate's holes lie where a random pose puts the part's, give or take, so that sets of
 * two, three and four are all common. */
static void make_small(Small *small, uint32_t *seed, double play)
{
    MatchQuery *query = &small->query;
    *query =
        (MatchQuery){.part_count = SMALL_PART, .use_count = SMALL_PLATE, .options = small->options};
    for (int i = 0; i < SMALL_PART; i++)
        query->part[i] = random_point(seed, 60, 20);
    Pose pose = random_pose(seed, 50);
    for (uint32_t i = 0; i < SMALL_PLATE; i++) {
        Point at = random_point(seed, 100, 100);
        if (i < 5) {
            Point off = random_point(seed, 2 * play, 2 * play);
            at = pose_point(pose, query->part[i % SMALL_PART]);
            at = point_plus(at, point_minus(off, (Point){play, play}));
        }
        small->holes[i] = (MatchHole){at, i, i + 10};
        for (int k = 0; k < SMALL_PART; k++)
            small->options[i * MATCH_HOLES_MOST + (uint32_t)k] =
                (HoleOptions){random_option(seed, 0.7, play), random_option(seed, 0.5, 2 * play)};
    }
}

/* --- the second opinion: discs that must have a point in common, over all rotations --------- */

typedef struct Disc {
    Point at;
    double radius;
} Disc;

static bool in_all(const Disc *discs, int count, Point p)
{
    for (int i = 0; i < count; i++)
        if (point_distance(discs[i].at, p) > discs[i].radius + 1e-9)
            return false;
    return true;
}

/* A common part of discs is a whole disc, or has a corner where two borders cross. */
static bool discs_meet(const Disc *discs, int count)
{
    for (int i = 0; i < count; i++) {
        if (in_all(discs, count, discs[i].at))
            return true;
        for (int k = 0; k < i; k++) {
            Point way = point_minus(discs[k].at, discs[i].at);
            double d = point_length(way), r = discs[i].radius, s = discs[k].radius;
            double along = d > 0 ? (d * d + r * r - s * s) / (2 * d) : 0;
            if (d == 0 || r * r < along * along)
                continue;
            double side = sqrt(r * r - along * along);
            Point unit = point_times(way, 1 / d),
                  foot = point_plus(discs[i].at, point_times(unit, along));
            Point across = {-unit.y * side, unit.x * side};
            if (in_all(discs, count, point_plus(foot, across)) ||
                in_all(discs, count, point_minus(foot, across)))
                return true;
        }
    }
    return false;
}

static bool fits_somehow(const Small *small, const int choices[SMALL_PART], bool turned_over,
                         double factor)
{
    Point from[SMALL_PART], to[SMALL_PART];
    double radii[SMALL_PART];
    int count = 0;
    for (int i = 0; i < SMALL_PART; i++) {
        if (choices[i] == 0)
            continue;
        uint32_t hole = (uint32_t)(choices[i] - 1) / 2;
        const HoleOptions *options = match_options(&small->query, hole, i);
        from[count] = small->query.part[i];
        to[count] = small->holes[hole].at;
        radii[count++] = factor * (choices[i] % 2 ? options->hold.play : options->locate.play);
    }
    for (int i = 0; i < count; i++)
        for (int k = 0; k < i; k++)
            if (fabs(point_distance(from[i], from[k]) - point_distance(to[i], to[k])) >
                radii[i] + radii[k])
                return false;
    RigidFit fit;
    rigid_fit_squares(from, to, (size_t)count, turned_over, &fit);
    double middle = atan2(fit.pose.sine, fit.pose.cosine);
    for (int step = -1500; step <= 1500; step++) {
        double angle = middle + step * 2e-4;
        Pose pose = {0, 0, cos(angle), sin(angle), turned_over};
        Disc discs[SMALL_PART];
        for (int i = 0; i < count; i++)
            discs[i] = (Disc){point_minus(to[i], pose_point(pose, from[i])), radii[i]};
        if (discs_meet(discs, count))
            return true;
    }
    return false;
}

static bool may_be(const Small *small, const int choices[SMALL_PART])
{
    int count = 0;
    for (int i = 0; i < SMALL_PART; i++) {
        if (choices[i] == 0)
            continue;
        count++;
        uint32_t hole = (uint32_t)(choices[i] - 1) / 2;
        const HoleOptions *options = match_options(&small->query, hole, i);
        if (!(choices[i] % 2 ? options->hold : options->locate).serves)
            return false;
        for (int k = 0; k < i; k++)
            if (choices[k] && (uint32_t)(choices[k] - 1) / 2 == hole)
                return false;
    }
    return count >= 2;
}

/* As the matcher's: same holes, and locating where the other does. */
static bool covered_by(const int better[SMALL_PART], const int set[SMALL_PART])
{
    for (int i = 0; i < SMALL_PART; i++) {
        bool same_hole = better[i] && (better[i] - 1) / 2 == (set[i] - 1) / 2;
        bool as_good = better[i] == set[i] || better[i] % 2 == 0;
        if (set[i] && !(same_hole && as_good))
            return false;
    }
    return true;
}

typedef struct Set {
    int choices[SMALL_PART];
    bool turned_over, kept;
} Set;

/* Every set that surely fits and that no other surely covers. False when some set lies so near the
 * edge of fitting that the second opinion can't tell. */
static bool all_sets(const Small *small, GArray *sets)
{
    for (int code = 0; code < CHOICES * CHOICES * CHOICES * CHOICES * 2; code++) {
        Set set = {.turned_over = code % 2, .kept = true};
        int rest = code / 2;
        for (int i = 0; i < SMALL_PART; i++, rest /= CHOICES)
            set.choices[i] = rest % CHOICES;
        if (!may_be(small, set.choices) || !fits_somehow(small, set.choices, set.turned_over, 1.01))
            continue;
        if (!fits_somehow(small, set.choices, set.turned_over, 0.99))
            return false;
        g_array_append_val(sets, set);
    }
    for (guint i = 0; i < sets->len; i++) {
        Set *set = &g_array_index(sets, Set, i);
        for (guint k = 0; k < sets->len && set->kept; k++) {
            const Set *other = &g_array_index(sets, Set, k);
            if (k != i && other->turned_over == set->turned_over &&
                covered_by(other->choices, set->choices))
                set->kept = false;
        }
    }
    return true;
}

static bool is_set(const Match *match, const Set *set)
{
    int choices[SMALL_PART] = {0};
    for (int i = 0; i < match->count; i++)
        choices[match->pairs[i].part_hole] =
            (int)match->pairs[i].hole * 2 + (match->pairs[i].locates ? 2 : 1);
    return match->pose.turned_over == set->turned_over &&
           memcmp(choices, set->choices, sizeof choices) == 0;
}

/* In `choices` an even number locates: 2 hole + 2; an odd one holds: 2 hole + 1. */
static void small_plates_are_matched_as_by_trying_everything(void **state)
{
    uint32_t seed = 31;
    int told = 0, larger = 0;
    for (int round = 0; round < 60; round++) {
        Small small;
        make_small(&small, &seed, round % 2 ? 0.4 : 1.5);
        GArray *sets = g_array_new(FALSE, FALSE, sizeof(Set));
        if (all_sets(&small, sets)) {
            GArray *matches = match_find(&small.query, small.holes, SMALL_PLATE, NULL, NULL);
            guint kept = 0;
            for (guint i = 0; i < sets->len; i++) {
                const Set *set = &g_array_index(sets, Set, i);
                guint found = 0;
                for (guint k = 0; k < matches->len; k++)
                    found += is_set(&g_array_index(matches, Match, k), set);
                assert_int_equal(found, set->kept);
                kept += set->kept;
            }
            assert_int_equal(matches->len, kept);
            assert_int_equal(match_any(&small.query, small.holes, SMALL_PLATE), kept > 0);
            for (guint k = 0; k < matches->len; k++)
                larger += g_array_index(matches, Match, k).count > 2;
            told += kept > 0;
            g_array_unref(matches);
        }
        g_array_unref(sets);
    }
    assert_true(told > 15 && larger > 5);
}

/* --- thousands of holes --------------------------------------------------------------------- */

#define PLANTS 25
#define PART 4

typedef struct Large {
    GArray *holes; /* MatchHole */
    Pose plants[PLANTS];
    uint32_t first[PLANTS]; /* of its holes; the others follow */
} Large;

static const HoleUse large_uses[3] = {
    {.pin_kind = FITTING_DOWEL, .pin = 4960000},
    {.pin_kind = FITTING_DOWEL, .pin = 3170000},
    {.pin_kind = FITTING_HOLD_DOWN, .pin = 2845000},
};

static Record *large_part(void)
{
    const double holes[PART][3] = {
        {9.4, 11.9, 5.0}, {17.8, 8.1, 3.2}, {31.75, 10.2, 3.2}, {66.3, 14.1, 5.0}};
    Record *record = record_new(ID_NONE, RECORD_PART);
    for (int i = 0; i < PART; i++) {
        PartHole *hole = list_append(&record->part.holes, PartHole);
        hole->at = (Place){MM(holes[i][0]), MM(holes[i][1])};
        hole->diameter = MM(holes[i][2]);
    }
    return record;
}

/* Plants lie in a lattice of their own cells, their holes off by up to 0.9 of the play; random
 * holes lie everywhere, also between a plant's own. */
static void make_large(Large *large, const MatchQuery *query, uint32_t *seed, int count)
{
    const uint32_t uses[PART] = {0, 1, 1, 0};
    large->holes = g_array_new(FALSE, FALSE, sizeof(MatchHole));
    for (int i = 0; i < PLANTS; i++) {
        Pose pose = random_pose(seed, 20);
        pose.x += 200.0 * (i % 5) + 90;
        pose.y += 200.0 * (i / 5) + 90;
        large->plants[i] = pose;
        large->first[i] = large->holes->len;
        for (int k = 0; k < PART; k++) {
            double play = 0.9 * match_options(query, uses[k], k)->locate.play;
            double way = random_between(seed, -M_PI, M_PI), off = random_between(seed, 0, play);
            Point at = pose_point(pose, query->part[k]);
            MatchHole hole = {{at.x + off * cos(way), at.y + off * sin(way)}, uses[k], 0};
            g_array_append_val(large->holes, hole);
        }
    }
    for (int i = 0; i < count; i++) {
        MatchHole hole = {random_point(seed, 1000, 1000), (uint32_t)random_between(seed, 0, 3), 0};
        g_array_append_val(large->holes, hole);
    }
}

static bool is_plant(const Large *large, int plant, const Match *match)
{
    if (match->count != PART || match->pose.turned_over != large->plants[plant].turned_over)
        return false;
    for (int i = 0; i < PART; i++)
        if (match->pairs[i].part_hole != i ||
            match->pairs[i].hole != large->first[plant] + (uint32_t)i)
            return false;
    return true;
}

static void check_true(const Large *large, const MatchQuery *query, const Match *match)
{
    for (int i = 0; i < match->count; i++) {
        const MatchPair *pair = &match->pairs[i];
        const MatchHole *hole = &g_array_index(large->holes, MatchHole, pair->hole);
        const HoleOptions *options = match_options(query, hole->use, pair->part_hole);
        const HoleOption *option = pair->locates ? &options->locate : &options->hold;
        double off =
            point_distance(pose_point(match->pose, query->part[pair->part_hole]), hole->at);
        assert_true(option->serves && off <= option->play * (1 + 1e-6) + 1e-9);
        assert_true(fabs(off - pair->deviation) < 1e-9);
    }
}

/* Screws in holes of 5 mm have so much play that chance finds places for them too. */
static bool locates_all(const Match *match)
{
    int count = 0;
    for (int i = 0; i < match->count; i++)
        count += match->pairs[i].locates;
    return count == PART;
}

static guint key_of(int part_one, uint32_t one, int part_other, uint32_t other)
{
    return (((guint)part_one * PART + (guint)part_other) * 8192 + one) * 8192 + other;
}

/* Every two holes that lie right for two of the part's, found by looking at all of them, are in
 * some match. */
static void check_all_pairs(const Large *large, const MatchQuery *query, const GArray *matches)
{
    GHashTable *pairs = g_hash_table_new(NULL, NULL);
    for (guint m = 0; m < matches->len; m++) {
        const Match *match = &g_array_index(matches, Match, m);
        for (int i = 0; i < match->count; i++)
            for (int k = i + 1; k < match->count; k++)
                g_hash_table_add(pairs, GUINT_TO_POINTER(key_of(
                                            match->pairs[i].part_hole, match->pairs[i].hole,
                                            match->pairs[k].part_hole, match->pairs[k].hole)));
    }
    for (int a = 0; a < PART; a++) {
        for (int b = a + 1; b < PART; b++) {
            double pitch = point_distance(query->part[a], query->part[b]);
            for (uint32_t i = 0; i < large->holes->len; i++) {
                const MatchHole *one = &g_array_index(large->holes, MatchHole, i);
                const HoleOptions *of_one = match_options(query, one->use, a);
                double play_one = fmax(of_one->locate.serves ? of_one->locate.play : -9,
                                       of_one->hold.serves ? of_one->hold.play : -9);
                for (uint32_t k = 0; k < large->holes->len && play_one >= 0; k++) {
                    const MatchHole *other = &g_array_index(large->holes, MatchHole, k);
                    double off = fabs(point_distance(one->at, other->at) - pitch);
                    if (k == i || off > 1)
                        continue;
                    const HoleOptions *of_other = match_options(query, other->use, b);
                    double play = fmax(of_other->locate.serves ? of_other->locate.play : -9,
                                       of_other->hold.serves ? of_other->hold.play : -9);
                    if (off <= play_one + play - 1e-9)
                        assert_true(
                            g_hash_table_contains(pairs, GUINT_TO_POINTER(key_of(a, i, b, k))));
                }
            }
        }
    }
    g_hash_table_unref(pairs);
}

static void planted_positions_are_found_among_thousands_of_holes(void **state)
{
    uint32_t seed = 2024;
    Record *part = large_part();
    for (int round = 0; round < 2; round++) {
        MatchQuery query;
        Large large;
        match_query_init(&query, &part->part, large_uses, 3, 0.25);
        make_large(&large, &query, &seed, 3000);
        GArray *matches = match_find(&query, (const MatchHole *)(void *)large.holes->data,
                                     large.holes->len, NULL, NULL);
        for (int i = 0; i < PLANTS; i++) {
            guint found = 0;
            for (guint k = 0; k < matches->len; k++)
                found += is_plant(&large, i, &g_array_index(matches, Match, k));
            assert_int_equal(found, 1);
        }
        guint whole = 0;
        for (guint k = 0; k < matches->len; k++) {
            check_true(&large, &query, &g_array_index(matches, Match, k));
            whole += locates_all(&g_array_index(matches, Match, k));
        }
        assert_int_equal(whole, PLANTS);
        check_all_pairs(&large, &query, matches);
        g_array_unref(matches);
        g_array_unref(large.holes);
        match_query_clear(&query);
    }
    record_unref(part);
}

static bool stop_at_once(void *data)
{
    return false;
}

static void it_can_be_stopped(void **state)
{
    uint32_t seed = 5;
    Small small;
    make_small(&small, &seed, 50);
    assert_null(match_find(&small.query, small.holes, SMALL_PLATE, stop_at_once, NULL));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(small_plates_are_matched_as_by_trying_everything),
        cmocka_unit_test(planted_positions_are_found_among_thousands_of_holes),
        cmocka_unit_test(it_can_be_stopped),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
