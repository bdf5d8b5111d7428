/* locator-fit: the part's hole must go over its locator, and not shift on it too far. */
#include "checks/locators.h"

enum { PLAY };

static const RuleLimit limits[] = {
    [PLAY] = {"play", 0.05, VALUE_LENGTH,
              "greatest clearance between a part's hole and its locator",
              "common practice, no source"},
};

enum { CASE_TIGHT, CASE_LOOSE };

static const RuleCase cases[] = {
    [CASE_TIGHT] = {LEVEL_STOP, VALUE_LENGTH,
                    "{a} can be {over} larger than the part's hole: the part will not go on",
                    "choose a smaller locator, or open the part's hole"},
    [CASE_LOOSE] = {LEVEL_CAUTION, VALUE_LENGTH,
                    "the part can have {value} of play on {a}; {limit} is allowed",
                    "choose a locator that fits closer"},
};

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Fitting *fitting = &placed_record(context->placed, a->id)->fitting;
    const Feature *station = placed_find(context->placed, fitting->station);
    const Part *part = station ? station_part(context->placed, station) : NULL;
    double least, greatest;
    if (!part || !fitting_locates(fitting) || fitting->part_hole < 1 ||
        fitting->part_hole > (int32_t)part->holes.count)
        return;
    locator_clearance(LIST_AT(&part->holes, PartHole, fitting->part_hole - 1), fitting, &least,
                      &greatest);
    if (falls_short(least, 0))
        rule_report(context, CASE_TIGHT, a, NULL, least, 0);
    else if (falls_short(context->limits[PLAY], greatest))
        rule_report(context, CASE_LOOSE, a, NULL, greatest, context->limits[PLAY]);
}

const Rule rule_locator_fit = {
    .slug = "locator-fit",
    .title = "Fit of part and locator",
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_FITTING,
    .cases = cases,
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
