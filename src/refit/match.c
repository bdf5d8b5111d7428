#include "refit/match.h"

#include <stdlib.h>
#include <string.h>

/* Below a nanometre a play means nothing: what is closer is there. */
#define PLAY_LEAST 1e-6

/* The plate's holes that serve one of the part's, from left to right. */
typedef struct Strip {
    uint32_t count;
    uint32_t *holes;
    double play; /* the greatest of all */
} Strip;

typedef struct Search {
    const MatchQuery *query;
    const MatchHole *holes;
    Strip strips[MATCH_HOLES_MOST];
    GHashTable *seen; /* GBytes of sets */
    GArray *matches;
    GArray *found; /* Match: of the seed at hand */
    bool any;      /* one is enough */
} Search;

/* Two pairs that are looked at together, and what else lies near at their position. */
typedef struct Seed {
    Search *search;
    Pose pose;
    int first, second; /* the part's holes */
    int order[MATCH_HOLES_MOST];
    int order_count;
    GArray *near[MATCH_HOLES_MOST]; /* uint32_t: by part hole */
    Match set;
} Seed;

/* --- the query ------------------------------------------------------------------------------ */

void match_query_init(MatchQuery *query, const Part *part, const HoleUse *uses, uint32_t use_count,
                      double clearance)
{
    query->part_count = (int)MIN(part->holes.count, MATCH_HOLES_MOST);
    query->use_count = use_count;
    query->options = g_new0(HoleOptions, (gsize)use_count * MATCH_HOLES_MOST);
    for (int i = 0; i < query->part_count; i++) {
        const PartHole *hole = LIST_AT(&part->holes, PartHole, i);
        query->part[i] = (Point){length_to_mm(hole->at.x), length_to_mm(hole->at.y)};
        for (uint32_t use = 0; use < use_count; use++)
            query->options[use * MATCH_HOLES_MOST + (uint32_t)i] =
                hole_options(&uses[use], hole, clearance);
    }
}

void match_query_clear(MatchQuery *query)
{
    g_clear_pointer(&query->options, g_free);
    query->use_count = 0;
}

const HoleOptions *match_options(const MatchQuery *query, uint32_t use, int part_hole)
{
    return &query->options[use * MATCH_HOLES_MOST + (uint32_t)part_hole];
}

static const HoleOption *option_of(const Search *search, int part_hole, uint32_t hole, bool locates)
{
    const HoleOptions *options = match_options(search->query, search->holes[hole].use, part_hole);
    return locates ? &options->locate : &options->hold;
}

/* The most that the two axes may be apart; negative: the one does not serve the other. */
static double play_of(const Search *search, int part_hole, uint32_t hole)
{
    const HoleOption *locate = option_of(search, part_hole, hole, true);
    const HoleOption *hold = option_of(search, part_hole, hole, false);
    double play = locate->serves ? locate->play : -1;
    return hold->serves ? fmax(play, hold->play) : play;
}

/* --- strips --------------------------------------------------------------------------------- */

static int compare_by_x(const void *a, const void *b, void *data)
{
    const MatchHole *holes = data;
    uint32_t first = *(const uint32_t *)a, second = *(const uint32_t *)b;
    double one = holes[first].at.x, other = holes[second].at.x;
    if (one != other)
        return one > other ? 1 : -1;
    return (first > second) - (first < second);
}

static void make_strip(Search *search, int part_hole, uint32_t hole_count)
{
    Strip *strip = &search->strips[part_hole];
    strip->holes = g_new(uint32_t, hole_count + 1);
    for (uint32_t i = 0; i < hole_count; i++) {
        double play = play_of(search, part_hole, i);
        if (play < 0)
            continue;
        strip->holes[strip->count++] = i;
        strip->play = fmax(strip->play, play);
    }
    qsort_r(strip->holes, strip->count, sizeof(uint32_t), compare_by_x, (void *)search->holes);
}

/* The first of the strip's holes that lies at `x` or to the right of it. */
static uint32_t strip_from(const Search *search, const Strip *strip, double x)
{
    uint32_t low = 0, high = strip->count;
    while (low < high) {
        uint32_t middle = (low + high) / 2;
        if (search->holes[strip->holes[middle]].at.x < x)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* --- does a set fit ------------------------------------------------------------------------- */

static int set_points(const Search *search, const Match *set, bool always,
                      Point from[MATCH_HOLES_MOST], Point to[MATCH_HOLES_MOST],
                      double plays[MATCH_HOLES_MOST])
{
    for (int i = 0; i < set->count; i++) {
        const MatchPair *pair = &set->pairs[i];
        const HoleOption *option = option_of(search, pair->part_hole, pair->hole, pair->locates);
        from[i] = search->query->part[pair->part_hole];
        to[i] = search->holes[pair->hole].at;
        plays[i] = fmax(PLAY_LEAST, always ? option->play_least : option->play);
    }
    return set->count;
}

static bool set_fits(const Search *search, const Match *set, bool always)
{
    Point from[MATCH_HOLES_MOST], to[MATCH_HOLES_MOST];
    double plays[MATCH_HOLES_MOST], share;
    RigidFit fit;
    int count = set_points(search, set, always, from, to, plays);
    if (count < 2)
        return true;
    if (count == 2)
        return fabs(point_distance(from[0], from[1]) - point_distance(to[0], to[1])) <=
               plays[0] + plays[1];
    rigid_fit_greatest(from, to, plays, (size_t)count, set->pose.turned_over, &fit, &share);
    return share <= 1;
}

/* The best pose, deviations, and whether it goes on at all sizes. */
static void settle(const Search *search, Match *set)
{
    Point from[MATCH_HOLES_MOST], to[MATCH_HOLES_MOST];
    double plays[MATCH_HOLES_MOST];
    RigidFit fit;
    int count = set_points(search, set, false, from, to, plays);
    rigid_fit_within(from, to, plays, (size_t)count, set->pose.turned_over, &fit);
    set->pose = fit.pose;
    set->always = set_fits(search, set, true);
    for (int i = 0; i < count; i++) {
        set->pairs[i].deviation = point_distance(pose_point(fit.pose, from[i]), to[i]);
        set->pairs[i].play = plays[i];
    }
}

/* --- sets at one position ------------------------------------------------------------------- */

static int compare_pairs(const void *a, const void *b)
{
    return ((const MatchPair *)a)->part_hole - ((const MatchPair *)b)->part_hole;
}

static GBytes *set_key(const Match *set)
{
    uint32_t key[1 + 2 * MATCH_HOLES_MOST];
    key[0] = set->pose.turned_over;
    for (int i = 0; i < set->count; i++) {
        key[1 + 2 * i] = (uint32_t)set->pairs[i].part_hole * 2 + set->pairs[i].locates;
        key[2 + 2 * i] = set->pairs[i].hole;
    }
    return g_bytes_new(key, sizeof(uint32_t) * (size_t)(1 + 2 * set->count));
}

/* True when `better` has all pairs of `set`, those that locate there among those that locate. */
static bool covers(const Match *better, const Match *set)
{
    for (int i = 0; i < set->count; i++) {
        bool found = false;
        for (int k = 0; k < better->count && !found; k++)
            found = better->pairs[k].part_hole == set->pairs[i].part_hole &&
                    better->pairs[k].hole == set->pairs[i].hole &&
                    better->pairs[k].locates >= set->pairs[i].locates;
        if (!found)
            return false;
    }
    return true;
}

static void keep_set(Seed *seed)
{
    GArray *found = seed->search->found;
    Match set = seed->set;
    qsort(set.pairs, (size_t)set.count, sizeof(MatchPair), compare_pairs);
    for (guint i = 0; i < found->len; i++)
        if (covers(&g_array_index(found, Match, i), &set))
            return;
    for (guint i = found->len; i-- > 0;)
        if (covers(&set, &g_array_index(found, Match, i)))
            g_array_remove_index_fast(found, i);
    g_array_append_val(found, set);
}

static bool is_taken(const Match *set, uint32_t hole)
{
    for (int i = 0; i < set->count; i++)
        if (set->pairs[i].hole == hole)
            return true;
    return false;
}

static bool extend(Seed *seed, int at);

/* Goes on with the pair in the set, where it serves and fits. True when everything after it went in
 * as well, locating wherever it can: nothing can then be better. */
static bool extend_with(Seed *seed, int at, uint32_t hole, bool locates)
{
    int part_hole = seed->order[at];
    if (!option_of(seed->search, part_hole, hole, locates)->serves)
        return false;
    seed->set.pairs[seed->set.count++] = (MatchPair){part_hole, hole, locates, 0, 0};
    bool complete = set_fits(seed->search, &seed->set, false) && extend(seed, at + 1);
    seed->set.count--;
    return complete;
}

static bool extend(Seed *seed, int at)
{
    if (at == seed->order_count) {
        keep_set(seed);
        return true;
    }
    const GArray *near = seed->near[seed->order[at]];
    for (guint i = 0; i < near->len; i++) {
        uint32_t hole = g_array_index(near, uint32_t, i);
        if (is_taken(&seed->set, hole))
            continue;
        bool can_locate = option_of(seed->search, seed->order[at], hole, true)->serves;
        if (extend_with(seed, at, hole, true) && near->len == 1)
            return true;
        if (extend_with(seed, at, hole, false) && near->len == 1 && !can_locate)
            return true;
    }
    /* Without it: it may stand in the way of others. The two of the seed are what it is about. */
    int part_hole = seed->order[at];
    if (part_hole != seed->first && part_hole != seed->second)
        extend(seed, at + 1);
    return false;
}

/* How far the part's hole can be from where the seed's pose has it. A rigid motion takes it along
 * with the seed's two holes, in proportion to where it lies between and beside them; each of them
 * can be as far off as its play and its share of their difference. */
static double reach_of(const Seed *seed, int part_hole, double play_one, double play_other)
{
    const Point *part = seed->search->query->part;
    Point along = point_minus(part[seed->second], part[seed->first]);
    Point way = point_minus(part[part_hole], part[seed->first]);
    double length = point_dot(along, along), most = 1.5 * (play_one + play_other);
    Point ratio = {point_dot(along, way) / length, point_cross(along, way) / length};
    double of_second = point_length(ratio), of_first = point_length((Point){1 - ratio.x, ratio.y});
    return (of_first + of_second) * most + PLAY_LEAST;
}

static void find_near(Seed *seed, int part_hole, double reach)
{
    const Search *search = seed->search;
    const Strip *strip = &search->strips[part_hole];
    Point at = pose_point(seed->pose, search->query->part[part_hole]);
    GArray *near = seed->near[part_hole];
    g_array_set_size(near, 0);
    double most = reach + strip->play;
    for (uint32_t i = strip_from(search, strip, at.x - most); i < strip->count; i++) {
        uint32_t hole = strip->holes[i];
        if (search->holes[hole].at.x > at.x + most)
            break;
        if (point_distance(search->holes[hole].at, at) <= reach + play_of(search, part_hole, hole))
            g_array_append_val(near, hole);
    }
}

static void take_found(Search *search)
{
    for (guint i = 0; i < search->found->len; i++) {
        Match *set = &g_array_index(search->found, Match, i);
        GBytes *key = set_key(set);
        if (!g_hash_table_add(search->seen, key))
            continue;
        settle(search, set);
        g_array_append_val(search->matches, *set);
    }
}

static void grow_seed(Seed *seed, uint32_t one, uint32_t other, bool turned_over)
{
    Search *search = seed->search;
    const Point from[2] = {search->query->part[seed->first], search->query->part[seed->second]};
    const Point to[2] = {search->holes[one].at, search->holes[other].at};
    RigidFit fit;
    rigid_fit_squares(from, to, 2, turned_over, &fit);
    seed->pose = fit.pose;
    double play_one = play_of(search, seed->first, one);
    double play_other = play_of(search, seed->second, other);
    seed->order_count = 0;
    for (int i = 0; i < search->query->part_count; i++) {
        if (i == seed->first || i == seed->second) {
            g_array_set_size(seed->near[i], 0);
            uint32_t hole = i == seed->first ? one : other;
            g_array_append_val(seed->near[i], hole);
        } else {
            find_near(seed, i, reach_of(seed, i, play_one, play_other));
        }
        if (seed->near[i]->len)
            seed->order[seed->order_count++] = i;
    }
    seed->set = (Match){.pose = {.turned_over = turned_over}};
    g_array_set_size(search->found, 0);
    extend(seed, 0);
    take_found(search);
}

/* --- all seeds ------------------------------------------------------------------------------ */

static void seeds_from(Seed *seed, uint32_t one)
{
    Search *search = seed->search;
    const Strip *strip = &search->strips[seed->second];
    Point at = search->holes[one].at;
    double pitch =
        point_distance(search->query->part[seed->first], search->query->part[seed->second]);
    double play_one = play_of(search, seed->first, one), most = pitch + play_one + strip->play;
    for (uint32_t i = strip_from(search, strip, at.x - most); i < strip->count; i++) {
        uint32_t other = strip->holes[i];
        Point there = search->holes[other].at;
        if (there.x > at.x + most || (search->any && search->matches->len))
            break;
        double play = play_one + play_of(search, seed->second, other);
        if (other == one || fabs(point_distance(at, there) - pitch) > play)
            continue;
        grow_seed(seed, one, other, false);
        grow_seed(seed, one, other, true);
    }
}

static bool search_pairs(Seed *seed, MatchGoOn go_on, void *data)
{
    Search *search = seed->search;
    const Point *part = search->query->part;
    for (int i = 0; i < search->query->part_count; i++) {
        for (int k = i + 1; k < search->query->part_count; k++) {
            const Strip *strip = &search->strips[i];
            /* Two holes in one place say nothing of the way the part lies. */
            if (point_distance(part[i], part[k]) < 0.001)
                continue;
            seed->first = i;
            seed->second = k;
            for (uint32_t n = 0; n < strip->count; n++) {
                if (go_on && n % 64 == 0 && !go_on(data))
                    return false;
                seeds_from(seed, strip->holes[n]);
            }
        }
    }
    return true;
}

static GArray *find(const MatchQuery *query, const MatchHole *holes, uint32_t hole_count, bool any,
                    MatchGoOn go_on, void *data)
{
    Search search = {.query = query,
                     .holes = holes,
                     .matches = g_array_new(FALSE, FALSE, sizeof(Match)),
                     .found = g_array_new(FALSE, FALSE, sizeof(Match)),
                     .any = any};
    Seed seed = {.search = &search};
    search.seen =
        g_hash_table_new_full(g_bytes_hash, g_bytes_equal, (GDestroyNotify)g_bytes_unref, NULL);
    for (int i = 0; i < query->part_count; i++) {
        make_strip(&search, i, hole_count);
        seed.near[i] = g_array_new(FALSE, FALSE, sizeof(uint32_t));
    }
    bool done = search_pairs(&seed, go_on, data);
    for (int i = 0; i < query->part_count; i++) {
        g_free(search.strips[i].holes);
        g_array_unref(seed.near[i]);
    }
    g_hash_table_unref(search.seen);
    g_array_unref(search.found);
    if (!done)
        g_clear_pointer(&search.matches, g_array_unref);
    return search.matches;
}

GArray *match_find(const MatchQuery *query, const MatchHole *holes, uint32_t hole_count,
                   MatchGoOn go_on, void *data)
{
    return find(query, holes, hole_count, false, go_on, data);
}

bool match_any(const MatchQuery *query, const MatchHole *holes, uint32_t hole_count)
{
    GArray *matches = find(query, holes, hole_count, true, NULL, NULL);
    bool any = matches->len > 0;
    g_array_unref(matches);
    return any;
}
