/* Things moved as little as a search finds so that stops go. */
#include "session/selection.h"
#include "session/suggest-private.h"
#include "session/trial.h"

#include <math.h>

#define WAYS 16
#define RINGS 24
#define RING_STEP (LENGTH_MM / 2)
#define ROUNDS_MOST 60

typedef struct Move {
    FeatureId id;
    Length dx, dy;
    double distance; /* mm */
    uint32_t stops;  /* left after it */
} Move;

typedef struct Clearing {
    Session *trial;
    Search search;
    uint32_t first_stops;
    Move best;
} Clearing;

/* What is moved when that thing is: a station for all that is cut for it, so that no hole leaves
 * the part's. */
static FeatureId moved_for(const Session *session, FeatureId id)
{
    const Record *record = plate_find(session_plate(session), id);
    FeatureId station = record ? record_station(record) : ID_NONE;
    return station ? station : id;
}

static bool offer(Clearing *clearing, FeatureId id, Length dx, Length dy)
{
    Edit edit = EDIT_EMPTY;
    double distance = hypot(length_to_mm(dx), length_to_mm(dy));
    Move *best = &clearing->best;
    if (distance <= 0 || (best->id && distance >= best->distance))
        return false;
    uint32_t before = suggest_stops(clearing->trial);
    bool better = false;
    if (selection_move(clearing->trial, &id, 1, dx, dy, &edit, NULL)) {
        session_try(clearing->trial, &edit);
        uint32_t after = suggest_stops(clearing->trial);
        session_stop_trying(clearing->trial);
        better = after < before;
        if (better)
            *best = (Move){id, dx, dy, distance, after};
    }
    edit_clear(&edit);
    return better;
}

/* Away from zero, so that a remedy never falls a nanometre short. */
static Length outward(double mm)
{
    double nm = mm * LENGTH_MM;
    return (Length)(nm < 0 ? floor(nm - 1e-6) : ceil(nm + 1e-6));
}

/* Rings out from where it lies: the first that helps is the shortest of these. */
static void offer_rings(Clearing *clearing, FeatureId id)
{
    for (int ring = 1; ring <= RINGS; ring++) {
        bool found = false;
        for (int way = 0; way < WAYS; way++) {
            double angle = 2 * M_PI * way / WAYS, reach = (double)(ring * RING_STEP);
            found = offer(clearing, id, llround(reach * cos(angle)), llround(reach * sin(angle))) ||
                    found;
        }
        if (found)
            return;
    }
}

static void offer_for(Clearing *clearing, const Finding *finding)
{
    if (finding->remedy.move)
        offer(clearing, finding->remedy.move,
              finding->remedy.by.x == 0 ? 0 : outward(finding->remedy.by.x),
              finding->remedy.by.y == 0 ? 0 : outward(finding->remedy.by.y));
    for (uint32_t i = 0; i < finding->feature_count; i++)
        offer_rings(clearing, moved_for(clearing->trial, finding->features[i]));
}

/* One move; false when none helps. */
static bool clear_one(Clearing *clearing)
{
    FindingList stops = {.count = 0};
    const FindingList *all = session_findings(clearing->trial);
    for (uint32_t i = 0; i < all->count; i++)
        if (all->items[i].level == LEVEL_STOP)
            *finding_list_add(&stops) = all->items[i];
    clearing->best = (Move){.id = ID_NONE};
    uint32_t gone = clearing->first_stops - MIN(stops.count, clearing->first_stops);
    for (uint32_t i = 0; i < stops.count; i++) {
        double done = (gone + (double)i / stops.count) / clearing->first_stops;
        if (!suggest_go_on(&clearing->search, done, gone))
            break;
        offer_for(clearing, &stops.items[i]);
    }
    finding_list_clear(&stops);
    const Move *best = &clearing->best;
    Edit edit = EDIT_EMPTY;
    bool done = best->id &&
                selection_move(clearing->trial, &best->id, 1, best->dx, best->dy, &edit, NULL) &&
                session_do(clearing->trial, &edit, NULL);
    edit_clear(&edit);
    return done;
}

/* --- bringing back -------------------------------------------------------------------------------
 */

static Place place_of(const Session *session, FeatureId id)
{
    return *record_place_const(plate_find(session_plate(session), id));
}

/* Halves the way back to where it was as long as no stop comes again. */
static void bring_back(Clearing *clearing, const Session *from, FeatureId id)
{
    uint32_t allowed = suggest_stops(clearing->trial);
    for (int halving = 1; halving <= 12; halving++) {
        Place was = place_of(from, id), now = place_of(clearing->trial, id);
        Length dx = (was.x - now.x) / (1 << halving) / LENGTH_UM * LENGTH_UM;
        Length dy = (was.y - now.y) / (1 << halving) / LENGTH_UM * LENGTH_UM;
        Edit edit = EDIT_EMPTY;
        if ((dx == 0 && dy == 0) || !selection_move(clearing->trial, &id, 1, dx, dy, &edit, NULL)) {
            edit_clear(&edit);
            return;
        }
        session_try(clearing->trial, &edit);
        bool good = suggest_stops(clearing->trial) <= allowed;
        session_stop_trying(clearing->trial);
        if (good)
            session_do(clearing->trial, &edit, NULL);
        edit_clear(&edit);
    }
}

static uint32_t finish(Clearing *clearing, const Session *from)
{
    uint32_t moved = 0;
    const Plate *plate = session_plate(from);
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *was = plate_at(plate, i);
        const Record *now = plate_find(session_plate(clearing->trial), was->id);
        if (!now || record_equal(was, now) || !record_place_const(was) || record_station(was))
            continue;
        bring_back(clearing, from, was->id);
        moved++;
    }
    return moved;
}

Session *suggest_clear(const Session *session, SuggestGoOn go_on, void *data, uint32_t *moved,
                       Error *error)
{
    Clearing clearing = {.trial = trial_new(session), .search = {go_on, data, 0, 1, false}};
    clearing.first_stops = suggest_stops(clearing.trial);
    *moved = 0;
    if (clearing.first_stops == 0) {
        error_set(error, ERROR_MISSING, NULL, "there is no stop to clear");
        session_free(clearing.trial);
        return NULL;
    }
    for (int i = 0; i < ROUNDS_MOST && !clearing.search.stopped; i++)
        if (!clear_one(&clearing))
            break;
    *moved = finish(&clearing, session);
    if (*moved == 0) {
        error_set(error, ERROR_MISSING, NULL, "no move was found that leaves fewer stops");
        g_clear_pointer(&clearing.trial, session_free);
    }
    return clearing.trial;
}
