/* floor: metal left below a blind recess, down to the plate's underside. */
#include "checks/rule.h"
#include "placed/placed-solids.h"

enum { FLOOR_ALUMINIUM, FLOOR_STEEL };

static const RuleLimit limits[] = {
    [FLOOR_ALUMINIUM] = {"floor_aluminium", 2.0, VALUE_LENGTH,
                         N_("least metal below a blind recess in aluminium"),
                         N_("common practice, no source")},
    [FLOOR_STEEL] = {"floor_steel", 1.5, VALUE_LENGTH,
                     N_("least metal below a blind recess in steel"),
                     N_("common practice, no source")},
};

static const RuleCase cases[] = {
    {LEVEL_STOP, VALUE_LENGTH,
     N_("{a} leaves {value} of metal below it; at least {limit} is needed"),
     N_("make it {less} shallower, or go right through")},
};

/* What comes out below is breaks-through's business. */
static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    double left = placed_metal_below(context->placed, a, true);
    double limit = rule_limit_by_metal(context, FLOOR_ALUMINIUM, FLOOR_STEEL);
    if (!a->through && !falls_short(left, 0) && falls_short(left, limit))
        rule_report(context, 0, a, NULL, left, limit);
}

const Rule rule_floor = {
    .slug = "floor",
    .title = N_("Thin floor below a recess"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_CUT,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
