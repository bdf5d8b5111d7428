#include "placed/placed-private.h"

#include <stdlib.h>

/* Adds a number that is not marked with this round yet. */
static void add_once(GArray *marks, GArray *list, uint32_t round, FeatureId id)
{
    if (id >= marks->len)
        g_array_set_size(marks, id + 1);
    uint32_t *mark = &g_array_index(marks, uint32_t, id);
    if (*mark == round)
        return;
    *mark = round;
    g_array_append_val(list, id);
}

void placed_touch(Placed *placed, FeatureId id)
{
    add_once(placed->marks, placed->touched, placed->round, id);
}

static bool touch_feature(const Feature *feature, void *data)
{
    placed_touch(data, feature->id);
    return true;
}

static int compare_ids(const void *a, const void *b)
{
    FeatureId one = *(const FeatureId *)a, other = *(const FeatureId *)b;
    return (one > other) - (one < other);
}

static void touch_all_on(Placed *placed, FeatureId id)
{
    const Placed *bottom = placed;
    uint32_t count;
    while (bottom->under)
        bottom = bottom->under;
    const FeatureId *on = dependents_of(bottom->dependents, id, &count);
    for (uint32_t k = 0; k < count; k++)
        placed_touch(placed, on[k]);
}

/* What lies in a nest stands on its floor: the nest's station, and by that all that stands on it,
 * is worked out anew. */
static void reach_seat(Placed *placed, const Record *record)
{
    bool nest = record && record->kind == RECORD_RECESS && record->recess.kind >= RECESS_NEST;
    if (nest && record->recess.station)
        placed_touch(placed, record->recess.station);
}

static void reach_seats(Placed *placed)
{
    guint count = placed->touched->len;
    for (guint i = 0; i < count; i++)
        reach_seat(placed, placed_record(placed, g_array_index(placed->touched, FeatureId, i)));
}

/* Things that stand on things that stand on the changed one are reached too; `touched` grows while
 * it is walked. */
static void reach_dependents(Placed *placed)
{
    for (guint i = 0; i < placed->touched->len; i++)
        touch_all_on(placed, g_array_index(placed->touched, FeatureId, i));
}

/* A station is looked at again when something that stands on it, or stood on it, is touched; what
 * else stands on it is not. */
static void reach_stations(Placed *placed)
{
    guint count = placed->touched->len;
    for (guint i = 0; i < count; i++) {
        const Record *record = placed_record(placed, g_array_index(placed->touched, FeatureId, i));
        if (record && record_station(record))
            placed_touch(placed, record_station(record));
    }
    for (guint i = 0; i < placed->left->len; i++)
        placed_touch(placed, g_array_index(placed->left, FeatureId, i));
}

void placed_leave_station(Placed *placed, const Record *before)
{
    FeatureId station = before ? record_station(before) : ID_NONE;
    reach_seat(placed, before);
    if (station)
        g_array_append_val(placed->left, station);
}

void placed_begin_round(Placed *placed)
{
    placed->round++;
    g_array_set_size(placed->touched, 0);
    g_array_set_size(placed->left, 0);
    g_array_set_size(placed->clamps, 0);
    placed->all_touched = false;
}

void placed_reach(Placed *placed)
{
    if (placed->all_touched)
        placed_each(placed->under ? placed->under : placed, touch_feature, placed);
    reach_seats(placed);
    reach_dependents(placed);
    reach_stations(placed);
}

static bool reach_clamp(const Feature *feature, void *data)
{
    Placed *placed = data;
    if (feature->kind == FEATURE_FITTING &&
        placed_record(placed, feature->id)->fitting.kind == FITTING_EDGE_CLAMP)
        add_once(placed->clamp_marks, placed->clamps, placed->round, feature->id);
    return true;
}

/* A little more than they reach, so that no rounding tells the two apart. */
#define REACHED (CLAMP_REACH + 0.01)

static void reach_clamps(Placed *placed, const Feature *part)
{
    placed_each_near(placed, part->face, box_grown(feature_whole_box(part), REACHED), reach_clamp,
                     placed);
}

typedef struct Cut {
    Placed *placed;
    const Feature *feature;
} Cut;

static bool reach_part(const Feature *part, void *data)
{
    const Cut *cut = data;
    if (part->kind != FEATURE_PART)
        return true;
    if (box_meets(feature_whole_box(part), cut->feature->box))
        placed_touch(cut->placed, part->id);
    reach_clamps(cut->placed, part);
    return true;
}

void placed_reach_near(Placed *placed, const Feature *feature)
{
    Cut cut = {placed, feature};
    if (!feature || placed->all_touched)
        return;
    if (feature->kind & FEATURE_CUT)
        placed_each_near(placed, feature->face, box_grown(feature->box, REACHED), reach_part, &cut);
    else if (feature->kind == FEATURE_PART)
        reach_clamps(placed, feature);
}

void placed_end_round(Placed *placed)
{
    if (placed->touched->len > 1)
        qsort(placed->touched->data, placed->touched->len, sizeof(FeatureId), compare_ids);
}

const FeatureId *placed_touched(const Placed *placed, uint32_t *count)
{
    *count = placed->touched->len;
    return (const FeatureId *)(void *)placed->touched->data;
}

const FeatureId *placed_touched_clamps(const Placed *placed, uint32_t *count)
{
    *count = placed->clamps->len;
    return (const FeatureId *)(void *)placed->clamps->data;
}

bool placed_all_touched(const Placed *placed)
{
    return placed->all_touched;
}
