/* locator-pitch: what the distance of a part's two located holes can be off, by their tolerances
 * and by growth in heat treatment, against the play that their locators leave. */
#include "checks/locators.h"

static const RuleCase cases[] = {
    {LEVEL_CAUTION, VALUE_LENGTH,
     N_("the holes of the part of {a} and its locators can be {limit} off in their distance, but "
        "the "
        "locators leave {value} of play: the part may not go on"),
     N_("make one locator a relieved pin, give more play, or hold the distance closer")},
};

typedef struct Pair {
    const Locator *one, *other;
    double distance;
} Pair;

/* The two tightest through different holes of the part decide; of equals the first two. */
static bool tightest_pair(const Locator *locators, int count, Pair *pair)
{
    double least = INFINITY;
    for (int i = 0; i < count; i++) {
        for (int k = i + 1; k < count; k++) {
            const Locator *one = &locators[i], *other = &locators[k];
            double play = one->clearance_least + other->clearance_least;
            if (!one->part_hole || !other->part_hole || one->part_hole == other->part_hole ||
                play >= least)
                continue;
            least = play;
            *pair = (Pair){one, other, point_distance(one->at, other->at)};
        }
    }
    return !isinf(least);
}

static double plate_tolerance(const Placed *placed, const Locator *locator)
{
    const Record *hole = placed_record(placed, locator->fitting->hole);
    return hole && hole->kind == RECORD_HOLE ? length_to_mm(hole->hole.position_tolerance) : 0;
}

/* A zone of diameter t lets an axis be off by t/2, so two of them the distance by (t1 + t2) / 2; in
 * the plate likewise. Growth of g per cent makes a distance L longer by g L / 100. What nobody has
 * stated is taken as nothing. */
static double greatest_error(const Placed *placed, const Part *part, const Pair *pair)
{
    double zones = length_to_mm(pair->one->part_hole->position_tolerance) +
                   length_to_mm(pair->other->part_hole->position_tolerance) +
                   plate_tolerance(placed, pair->one) + plate_tolerance(placed, pair->other);
    return zones / 2 + fabs((double)part->growth / 1e6) / 100 * pair->distance;
}

static bool is_relieved(const Locator *locator)
{
    return locator->fitting->kind == FITTING_RELIEVED_PIN;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Pair pair = {NULL, NULL, 0};
    Locator locators[LOCATORS_MOST];
    const Part *part = station_part(context->placed, a);
    int count = station_locators(context->placed, a, locators);
    if (!part || !tightest_pair(locators, count, &pair) || is_relieved(pair.one) ||
        is_relieved(pair.other))
        return;
    double error = greatest_error(context->placed, part, &pair);
    double play = (pair.one->clearance_least + pair.other->clearance_least) / 2;
    /* Without any play locator-fit has stopped it. */
    if (error <= 0 || falls_short(play, 0) || !falls_short(play, error))
        return;
    Finding *finding = rule_report(context, 0, a, NULL, play, error);
    rule_report_between(finding, pair.one->at, pair.other->at);
}

const Rule rule_locator_pitch = {
    .slug = "locator-pitch",
    .title = N_("Distance of the located holes"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .check = check,
};
