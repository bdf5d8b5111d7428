/* two-locators: a part is fixed by two locators, far enough apart for the angle asked, and not two
 * tight ones that fight over its holes' distance. */
#include "checks/locators.h"

enum { TURN, TIGHT };

static const RuleLimit limits[] = {
    [TURN] = {"turn", 0.25, VALUE_ANGLE,
              N_("how far the part may turn in the play of its locators"),
              N_("common practice, no source")},
    [TIGHT] = {"tight", 0.010, VALUE_LENGTH,
               N_("clearance at or below which a locator counts as tight"),
               N_("common practice, no source")},
};

enum { CASE_NONE, CASE_ONE, CASE_TURNS, CASE_TIGHT };

static const RuleCase cases[] = {
    [CASE_NONE] = {LEVEL_STOP, VALUE_COUNT,
                   N_("{a} has no locator: nothing says where the part lies"),
                   N_("add a shoulder screw or dowel through two of the part's holes")},
    [CASE_ONE] = {LEVEL_STOP, VALUE_COUNT, N_("{a} has one locator: the part can turn about it"),
                  N_("add a second locator, as far away as the part allows")},
    [CASE_TURNS] =
        {LEVEL_CAUTION, VALUE_ANGLE,
         N_("the part of {a} can turn by {value} in its locators' play; {limit} is allowed"),
         N_("set the locators further apart, or make them fit closer")},
    [CASE_TIGHT] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("both locators of {a} are tight ({value} of clearance at most) and neither is "
            "relieved"),
         N_("make one of them a relieved pin, so that the holes' distance can vary")},
};

/* The two locators furthest apart decide. A part with a radial play of c1/2 and c2/2 at two pins L
 * apart turns by at most (c1 + c2) / (2 L) either way (geometry of small angles). */
static double greatest_turn(const Locator *one, const Locator *other, double distance)
{
    return (one->clearance_greatest + other->clearance_greatest) / (2 * distance) * (180 / M_PI);
}

static double furthest_pair(const Locator *locators, int count, const Locator **one,
                            const Locator **other)
{
    double furthest = -1;
    for (int i = 0; i < count; i++) {
        for (int k = i + 1; k < count; k++) {
            double distance = point_distance(locators[i].at, locators[k].at);
            if (distance > furthest) {
                furthest = distance;
                *one = &locators[i];
                *other = &locators[k];
            }
        }
    }
    return furthest;
}

static void check_pair(RuleContext *context, const Feature *station, const Locator *one,
                       const Locator *other, double distance)
{
    if (!one->part_hole || !other->part_hole)
        return;
    double turn = distance > 0 ? greatest_turn(one, other, distance) : 180;
    double tightest = fmax(one->clearance_greatest, other->clearance_greatest);
    bool relieved =
        one->fitting->kind == FITTING_RELIEVED_PIN || other->fitting->kind == FITTING_RELIEVED_PIN;
    Finding *finding = NULL;
    if (falls_short(context->limits[TURN], turn))
        finding = rule_report(context, CASE_TURNS, station, NULL, turn, context->limits[TURN]);
    else if (!falls_short(context->limits[TIGHT], tightest) && !relieved)
        finding = rule_report(context, CASE_TIGHT, station, NULL, tightest, context->limits[TIGHT]);
    if (finding)
        rule_report_between(finding, one->at, other->at);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Locator locators[LOCATORS_MOST];
    const Locator *one = NULL, *other = NULL;
    int count = station_locators(context->placed, a, locators);
    if (count < 2) {
        Finding *finding = rule_report(context, count ? CASE_ONE : CASE_NONE, a, NULL, count, 2);
        if (count)
            finding->at = finding->from = finding->to = locators[0].at;
        return;
    }
    double distance = furthest_pair(locators, count, &one, &other);
    check_pair(context, a, one, other, distance);
}

const Rule rule_two_locators = {
    .slug = "two-locators",
    .title = N_("Two locators for each part"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
