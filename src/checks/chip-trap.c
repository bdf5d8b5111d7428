/* chip-trap: chips and coolant find a way out from under a part in its nest. */
#include "checks/nests.h"

enum { DRAIN };

static const RuleLimit limits[] = {
    [DRAIN] = {"drain", 3.0, VALUE_LENGTH, N_("width of what leads chips out of a nest, at least"),
               N_("common practice, no source")},
};

enum { CASE_NONE, CASE_NARROW };

static const RuleCase cases[] = {
    [CASE_NONE] =
        {LEVEL_NOTE, VALUE_NONE, N_("nothing leads chips and coolant out of {a}"),
         N_("drill a drain through its floor where nothing stands, or let a slot run out of "
            "it over the edge")},
    [CASE_NARROW] = {LEVEL_CAUTION, VALUE_LENGTH,
                     N_("what leads chips out of {a} is {value} wide; {limit} is needed"),
                     N_("make the drain {less} wider")},
};

typedef struct Search {
    const RuleContext *context;
    double widest; /* 0: nothing leads out */
} Search;

typedef struct Standing {
    FeatureId hole;
    bool found;
} Standing;

static bool stands_in(const Feature *feature, void *data)
{
    Standing *standing = data;
    standing->found = standing->found || feature->kind == FEATURE_FITTING;
    return !standing->found;
}

/* A hole with a screw or pin in it is stopped up. */
static bool is_open(const Placed *placed, const Feature *hole)
{
    Standing standing = {hole->id, false};
    placed_each_on(placed, hole->id, stands_in, &standing);
    return !standing.found;
}

static bool runs_over_edge(const Placed *placed, const Feature *feature)
{
    Gap room;
    const Frame *frame = placed_frame(placed, feature->face);
    shape_room(&frame->extent, &feature->shape, &room);
    return room.distance < 0;
}

/* The narrowest step of a hole lets through what it lets through. */
static double width_of(const Feature *feature)
{
    double width = 2 * feature->shape.growth;
    if (feature->kind == FEATURE_HOLE)
        for (int i = 0; i < feature->slice_count; i++)
            width = fmin(width, 2 * feature->slices[i].growth);
    if (feature->shape.core == CORE_RECTANGLE)
        width += 2 * fmin(feature->shape.half_length, feature->shape.half_width);
    return width;
}

static bool leads_out(const Feature *feature, void *data)
{
    Search *search = data;
    const Placed *placed = search->context->placed;
    bool out = feature->kind == FEATURE_HOLE ? feature->through && is_open(placed, feature)
                                             : feature->through || runs_over_edge(placed, feature);
    if (out)
        search->widest = fmax(search->widest, width_of(feature));
    return true;
}

static void check_nest(RuleContext *context, const NestLook *look)
{
    Search search = {context, 0};
    double limit = context->limits[DRAIN];
    if (runs_over_edge(context->placed, look->nest))
        return;
    each_cut_near_part(context, look, leads_out, &search);
    if (search.widest == 0)
        rule_report(context, CASE_NONE, look->nest, look->station, 0, 0);
    else if (falls_short(search.widest, limit))
        rule_report(context, CASE_NARROW, look->nest, look->station, search.widest, limit);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_nest(context, a, check_nest);
}

const Rule rule_chip_trap = {
    .slug = "chip-trap",
    .title = N_("Nest that traps chips"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
