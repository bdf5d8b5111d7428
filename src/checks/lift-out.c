/* lift-out: a part or blank that lies deep in its nest can be taken hold of. */
#include "checks/nests.h"

enum { GRIP, FINGER };

static const RuleLimit limits[] = {
    [GRIP] = {"grip", 1.0, VALUE_LENGTH, N_("how far a part stands out of its nest to be gripped"),
              N_("common practice, no source")},
    [FINGER] = {"finger", 12.0, VALUE_LENGTH,
                N_("width of a recess beside the part that a finger goes into"),
                N_("common practice, no source")},
};

enum { CASE_LOW, CASE_BELOW };

static const RuleCase cases[] = {
    [CASE_LOW] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("the part of {b} stands {value} out of {a}, and nothing beside it takes a finger; "
            "{limit} is needed to grip it"),
         N_("cut a finger notch over the nest's wall, or make the nest {less} less deep")},
    [CASE_BELOW] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("the part of {b} lies {over} below the top of {a}, and nothing beside it takes "
            "a finger"),
         N_("cut a finger notch over the nest's wall, or make the nest {less} less deep")},
};

typedef struct Search {
    const NestLook *look;
    double finger;
    bool found;
} Search;

/* A finger gets under the part where something as wide as it is deeper than the nest, reaches under
 * the part and out over the nest's wall. */
static bool takes_finger(const Feature *feature, void *data)
{
    Gap room;
    Search *search = data;
    if (feature->kind != FEATURE_RECESS ||
        falls_short(-feature->bottom, -search->look->nest->bottom))
        return true;
    Box box = feature->box;
    double width = 2 * feature->shape.growth;
    if (feature->shape.core == CORE_RECTANGLE)
        width += 2 * fmin(feature->shape.half_length, feature->shape.half_width);
    if (feature->shape.core == CORE_OUTLINE)
        width = fmin(box.x1 - box.x0, box.y1 - box.y0);
    if (falls_short(width, search->finger))
        return true;
    shape_room(&search->look->nest->shape, &feature->shape, &room);
    search->found = room.distance < 0;
    return !search->found;
}

static void check_nest(RuleContext *context, const NestLook *look)
{
    double out = look->thickness + look->nest->bottom;
    Search search = {look, context->limits[FINGER], false};
    if (!falls_short(out, context->limits[GRIP]))
        return;
    each_cut_near_part(context, look, takes_finger, &search);
    if (!search.found)
        rule_report(context, out < 0 ? CASE_BELOW : CASE_LOW, look->nest, look->station, out,
                    context->limits[GRIP]);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_nest(context, a, check_nest);
}

const Rule rule_lift_out = {
    .slug = "lift-out",
    .title = N_("No room to lift a part out"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
