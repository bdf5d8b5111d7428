/* overlap: two recesses of one face that break into each other. */
#include "checks/recess-pair.h"

enum { CASE_HOLE, CASE_RECESSES };

static const RuleCase cases[] = {
    [CASE_HOLE] = {LEVEL_STOP, VALUE_LENGTH, N_("{a} and {b} break into each other by {over}"),
                   N_("move them apart, or make them steps of one hole")},
    [CASE_RECESSES] = {LEVEL_NOTE, VALUE_LENGTH, N_("{a} and {b} run into each other by {over}"),
                       N_("fine where it is meant, as a clamp's slot that opens into a nest")},
};

/* Recesses that stand on one station are meant to meet: a nest's relief, its burr grooves, the
 * finger notch beside it. */
static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Gap gap;
    bool recesses = a->kind == FEATURE_RECESS && b->kind == FEATURE_RECESS;
    if (recesses && a->station && a->station == b->station)
        return;
    feature_gap(a, b, &gap);
    if (!falls_short(gap.distance, 0) || recess_lies_within(a, b))
        return;
    Finding *finding =
        rule_report(context, recesses ? CASE_RECESSES : CASE_HOLE, a, b, gap.distance, 0);
    rule_report_between(finding, gap.on_a, gap.on_b);
}

const Rule rule_overlap = {
    .slug = "overlap",
    .title = N_("Recesses that break into each other"),
    .scope = SCOPE_PAIR,
    .kinds = FEATURE_CUT,
    .other_kinds = FEATURE_CUT,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .check = check,
};
