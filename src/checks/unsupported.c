/* unsupported: how much of a part lies over nothing, and how much of its bevel, where it is thin.
 */
#include "checks/bevel-figures.h"
#include "checks/borne.h"
#include "checks/edge-profile.h"
#include "checks/rule.h"

enum { AREA, BEVEL };

static const RuleLimit limits[] = {
    [AREA] = {"area", 150, VALUE_COUNT, N_("area of a part with nothing under it, mm2"),
              N_("common practice, no source")},
    [BEVEL] = {"bevel", 10, VALUE_COUNT, N_("area of a bevel with nothing under it, mm2"),
               N_("common practice, no source")},
};

enum { CASE_AREA, CASE_BEVEL };

static const RuleCase cases[] = {
    [CASE_AREA] = {LEVEL_CAUTION, VALUE_AREA,
                   N_("{value} of the part of {a} has nothing under it; up to {limit} is allowed"),
                   N_("move the station or what is cut away below it")},
    [CASE_BEVEL] =
        {LEVEL_CAUTION, VALUE_AREA,
         N_("{value} of the bevel of the part of {a} has nothing under it; up to {limit} "
            "is allowed"),
         N_("move the station or what is cut away below it: a thin edge gives way under "
            "the cutter")},
};

static void report(RuleContext *context, int which, const Feature *station, const Unborne *unborne,
                   double limit)
{
    if (!falls_short(limit, unborne->area))
        return;
    Finding *finding = rule_report(context, which, station, NULL, unborne->area, limit);
    rule_report_between(finding, unborne->at, unborne->at);
}

/* On stock of its nominal thickness. */
static bool bevel_shape(const Placed *placed, const Feature *station, Shape *shape)
{
    EdgeProfile profile;
    const Part *part = bevelled_part(placed, station, &profile);
    if (!part)
        return false;
    double height =
        blade_bevel_height(length_to_mm(part->thickness), length_to_mm(part->bevel.edge_thickness),
                           angle_to_degrees(part->bevel.angle), part->bevel.both_sides ? 2 : 1);
    *shape = bevelled_area(station, &profile, height);
    return height > 0;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Shape bevel;
    double area = context->limits[AREA], of_bevel = context->limits[BEVEL];
    Unborne unborne = part_unborne(context->placed, a, NULL, area);
    report(context, CASE_AREA, a, &unborne, area);
    if (bevel_shape(context->placed, a, &bevel)) {
        unborne = part_unborne(context->placed, a, &bevel, of_bevel);
        report(context, CASE_BEVEL, a, &unborne, of_bevel);
    }
}

const Rule rule_unsupported = {
    .slug = "unsupported",
    .title = N_("Nothing under a part"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
