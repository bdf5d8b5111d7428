/* web: metal between two recesses of one face that share a depth. */
#include "checks/recess-pair.h"

enum { WALL_ALUMINIUM, WALL_STEEL };

static const RuleLimit limits[] = {
    [WALL_ALUMINIUM] = {"wall_aluminium", 2.0, VALUE_LENGTH,
                        N_("least wall between two recesses in aluminium"),
                        N_("common practice, no source")},
    [WALL_STEEL] = {"wall_steel", 1.5, VALUE_LENGTH, N_("least wall between two recesses in steel"),
                    N_("common practice, no source")},
};

static const RuleCase cases[] = {
    {LEVEL_STOP, VALUE_LENGTH,
     N_("{a} and {b} leave a wall of {value} between them; at least {limit} is needed"),
     N_("move them {less} further apart")},
};

/* The larger of the two walls: the metal isn't known here, and a pair too far apart costs little.
 */
static double reach(const double *values)
{
    return fmax(values[WALL_ALUMINIUM], values[WALL_STEEL]);
}

static const Feature *movable(RuleContext *context, const Feature *a, const Feature *b)
{
    const Record *record = placed_record(context->placed, b->id);
    return record && !record_made(record) && !record_locked(record) && !record_station(record) ? b
                                                                                               : a;
}

/* Recesses that meet are overlap's business. */
static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Gap gap;
    double wall = rule_limit_by_metal(context, WALL_ALUMINIUM, WALL_STEEL);
    feature_gap(a, b, &gap);
    if (falls_short(gap.distance, 0) || !falls_short(gap.distance, wall) ||
        recess_lies_within(a, b))
        return;
    Finding *finding = rule_report(context, 0, a, b, gap.distance, wall);
    rule_report_between(finding, gap.on_a, gap.on_b);
    Point way = point_minus(gap.on_b, gap.on_a);
    const Feature *mover = movable(context, a, b);
    double length = point_length(way), sign = mover == b ? 1 : -1;
    if (length > 0)
        rule_offer_move(context, finding, mover,
                        point_times(way, sign * (wall - gap.distance) / length));
}

const Rule rule_web = {
    .slug = "web",
    .title = N_("Thin wall between two recesses"),
    .scope = SCOPE_PAIR,
    .kinds = FEATURE_CUT,
    .other_kinds = FEATURE_CUT,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .reach = reach,
    .check = check,
};
