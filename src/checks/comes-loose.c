/* comes-loose: once its profile is cut, a part is held by the fasteners through it alone, and never
 * by fewer than two. */
#include "checks/rule.h"

enum { FASTENERS };

static const RuleLimit limits[] = {
    [FASTENERS] = {"fasteners", 2, VALUE_COUNT, "screws that must hold a part once it is cut free",
                   "common practice, no source"},
};

static const RuleCase cases[] = {
    {LEVEL_STOP, VALUE_COUNT,
     "once its profile is cut the part of {a} has {value} of the {limit} screws that must hold it",
     "add hold-downs or shoulder screws through the part's holes"},
};

typedef struct Count {
    const Placed *placed;
    int fasteners;
} Count;

static bool count_fastener(const Feature *feature, void *data)
{
    Count *count = data;
    if (feature->kind == FEATURE_FITTING) {
        const Fitting *fitting = &placed_record(count->placed, feature->id)->fitting;
        count->fasteners += fitting_holds_down(fitting) && fitting->part_hole > 0;
    }
    return true;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Count count = {context->placed, 0};
    placed_each_on(context->placed, a->id, count_fastener, &count);
    if (count.fasteners < context->limits[FASTENERS])
        rule_report(context, 0, a, NULL, count.fasteners, context->limits[FASTENERS]);
}

const Rule rule_comes_loose = {
    .slug = "comes-loose",
    .title = "Part comes loose when cut free",
    .scope = SCOPE_STATION,
    .cases = cases,
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
