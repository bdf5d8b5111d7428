/* keep-clear: nothing may enter an area that is kept clear, within its height. */
#include "checks/rule.h"

static const RuleCase cases[] = {
    {LEVEL_STOP, VALUE_LENGTH, N_("{b} enters {a} by {over}"),
     N_("move it {over} out of the area")},
};

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Gap gap;
    feature_gap(a, b, &gap);
    if (!falls_short(gap.distance, 0))
        return;
    Finding *finding = rule_report(context, 0, a, b, gap.distance, 0);
    rule_report_between(finding, gap.on_a, gap.on_b);
}

const Rule rule_keep_clear = {
    .slug = "keep-clear",
    .title = N_("Into a keep-clear"),
    .scope = SCOPE_PAIR,
    .kinds = FEATURE_KEEP_CLEAR,
    .other_kinds = FEATURE_CUT | FEATURE_FITTING | FEATURE_PART,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .check = check,
};
