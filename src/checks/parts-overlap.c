/* parts-overlap: two parts, or their blanks, in one place. */
#include "checks/alternatives.h"
#include "checks/rule.h"

enum { APART };

static const RuleLimit limits[] = {
    [APART] = {"apart", 0, VALUE_LENGTH, N_("least distance between two parts or blanks"),
               N_("common practice, no source")},
};

enum { CASE_MEET, CASE_CLOSE };

static const RuleCase cases[] = {
    [CASE_MEET] = {LEVEL_STOP, VALUE_LENGTH, N_("{a} and {b} overlap by {over}"),
                   N_("move the stations apart")},
    [CASE_CLOSE] = {LEVEL_STOP, VALUE_LENGTH,
                    N_("{a} and {b} are {value} apart; at least {limit} is asked for"),
                    N_("move the stations {less} further apart")},
};

static double reach(const double *values)
{
    return values[APART];
}

static const Shape *widest(const Feature *part)
{
    return part->has_blank ? &part->blank : &part->shape;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Gap gap;
    double apart = context->limits[APART];
    if (stations_are_alternatives(context->placed, a->id, b->id))
        return;
    shape_gap(widest(a), widest(b), &gap);
    if (!falls_short(gap.distance, fmax(0, apart)))
        return;
    Finding *finding = falls_short(gap.distance, 0)
                           ? rule_report(context, CASE_MEET, a, b, gap.distance, 0)
                           : rule_report(context, CASE_CLOSE, a, b, gap.distance, apart);
    rule_report_between(finding, gap.on_a, gap.on_b);
}

const Rule rule_parts_overlap = {
    .slug = "parts-overlap",
    .title = N_("Two parts in one place"),
    .scope = SCOPE_PAIR,
    .kinds = FEATURE_PART,
    .other_kinds = FEATURE_PART,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .reach = reach,
    .check = check,
};
