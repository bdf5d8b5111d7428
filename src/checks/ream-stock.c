/* ream-stock: a reamer has enough to cut, and not more than it can. */
#include "checks/hole-steps.h"
#include "checks/rule.h"

enum { LEAST, GREATEST };

static const RuleLimit limits[] = {
    [LEAST] = {"least", 0.1, VALUE_LENGTH, N_("stock for a reamer, on the diameter, at least"),
               N_("common practice, no source")},
    [GREATEST] = {"greatest", 0.4, VALUE_LENGTH, N_("stock for a reamer, on the diameter, at most"),
                  N_("common practice: 1/64 in, no source")},
};

enum { CASE_NONE, CASE_LITTLE, CASE_MUCH };

static const RuleCase cases[] = {
    [CASE_NONE] = {LEVEL_CAUTION, VALUE_NONE, N_("{a} is reamed, but nothing is drilled before it"),
                   N_("add a drill before the reamer")},
    [CASE_LITTLE] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("the drill of {a} leaves the reamer {value} on the diameter, and it will rub; "
            "at least {limit} is needed"),
         N_("drill a size smaller")},
    [CASE_MUCH] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("the drill of {a} leaves the reamer {value} on the diameter; {limit} is the most"),
         N_("drill a size larger, or drill twice")},
};

/* False once something is reported. */
static bool check_ream(RuleContext *context, const Feature *a, const Hole *hole, const Step *ream)
{
    const Step *drill = step_before(hole, ream);
    if (!drill)
        return !rule_report(context, CASE_NONE, a, NULL, 0, 0);
    double stock = length_to_mm(ream->diameter - drill->diameter);
    double least = context->limits[LEAST], greatest = context->limits[GREATEST];
    if (falls_short(stock, least))
        return !rule_report(context, CASE_LITTLE, a, NULL, stock, least);
    if (falls_short(greatest, stock))
        return !rule_report(context, CASE_MUCH, a, NULL, stock, greatest);
    return true;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Hole *hole = &placed_record(context->placed, a->id)->hole;
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        if (step->kind == STEP_REAM && !check_ream(context, a, hole, step))
            return;
    }
}

const Rule rule_ream_stock = {
    .slug = "ream-stock",
    .title = N_("Stock left for a reamer"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_HOLE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
