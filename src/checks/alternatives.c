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

/* Whether a station is said to take another's place. */
static bool says_instead(const Placed *placed, FeatureId station, FeatureId other)
{
    const List *instead = &placed_record(placed, station)->station.instead_of;
    for (uint32_t i = 0; i < instead->count; i++)
        if (*LIST_AT(instead, FeatureId, i) == other)
            return true;
    return false;
}

static bool lie_in_one_place(const Placed *placed, FeatureId a, FeatureId b)
{
    const Feature *one = placed_find(placed, a), *other = placed_find(placed, b);
    Gap gap;
    if (!one || !other || one->face != other->face)
        return false;
    shape_gap(one->has_blank ? &one->blank : &one->shape,
              other->has_blank ? &other->blank : &other->shape, &gap);
    return gap.distance < 0;
}

bool stations_are_alternatives(const Placed *placed, FeatureId a, FeatureId b)
{
    Sharing sharing = {placed, b, false};
    placed_each_on(placed, a, visit_own, &sharing);
    if (sharing.shared)
        return true;
    /* Once it is moved beside the other one, both can be loaded. */
    bool said = says_instead(placed, a, b) || says_instead(placed, b, a);
    return said && lie_in_one_place(placed, a, b);
}
