#include "checks/alternatives.h"

typedef struct Sharing {
    const Placed *placed;
    FeatureId other; /* the station that is looked for in the holes of the first */
    bool shared;
} Sharing;

static const Fitting *fitting_of(const Placed *placed, const Feature *feature)
{
    const Record *record =
        feature->kind == FEATURE_FITTING ? placed_record(placed, feature->id) : NULL;
    return record && record->kind == RECORD_FITTING ? &record->fitting : NULL;
}

static bool visit_user(const Feature *feature, void *data)
{
    Sharing *sharing = data;
    const Fitting *fitting = fitting_of(sharing->placed, feature);
    sharing->shared = fitting && fitting->station == sharing->other;
    return !sharing->shared;
}

static bool visit_own(const Feature *feature, void *data)
{
    Sharing *sharing = data;
    const Fitting *fitting = fitting_of(sharing->placed, feature);
    if (fitting && fitting->hole != ID_NONE)
        placed_each_on(sharing->placed, fitting->hole, visit_user, sharing);
    return !sharing->shared;
}

bool stations_are_alternatives(const Placed *placed, FeatureId a, FeatureId b)
{
    Sharing sharing = {placed, b, false};
    placed_each_on(placed, a, visit_own, &sharing);
    return sharing.shared;
}
