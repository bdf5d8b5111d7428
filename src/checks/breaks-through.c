/* breaks-through: a recess meant to be blind that comes out of the underside, where the base is. */
#include "checks/rule.h"
#include "placed/placed-solids.h"

enum { CASE_DEEP, CASE_POINT };

static const RuleCase cases[] = {
    [CASE_DEEP] = {LEVEL_STOP, VALUE_LENGTH,
                   N_("{a} has a depth but comes out of the plate's underside by {over}"),
                   N_("make it shallower, or say that it goes through")},
    [CASE_POINT] = {LEVEL_STOP, VALUE_LENGTH,
                    N_("the drill's point of {a} comes out of the plate's underside by {over}"),
                    N_("make it shallower, or say that it goes through")},
};

/* A hole one of whose steps is said to go through is through on purpose. */
static bool is_meant(const Record *record)
{
    if (record->kind == RECORD_RECESS)
        return record->recess.through;
    const List *steps = &record->hole.steps;
    for (uint32_t i = 0; i < steps->count; i++)
        if (LIST_AT(steps, Step, i)->through)
            return true;
    return false;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Record *record = placed_record(context->placed, a->id);
    double left = placed_metal_below(context->placed, a, true);
    if (!falls_short(left, 0) || is_meant(record))
        return;
    bool deep = placed_metal_below(context->placed, a, false) <= 0;
    rule_report(context, deep ? CASE_DEEP : CASE_POINT, a, NULL, left, 0);
}

const Rule rule_breaks_through = {
    .slug = "breaks-through",
    .title = N_("Out through the bottom"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_CUT,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .check = check,
};
