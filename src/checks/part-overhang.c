/* part-overhang: a part with nothing of the plate under its edge. */
#include "checks/rule.h"

enum { OVERHANG };

static const RuleLimit limits[] = {
    [OVERHANG] = {"overhang", 0, VALUE_LENGTH, N_("how far a part may reach over the plate's edge"),
                  N_("common practice, no source")},
};

static const RuleCase cases[] = {
    {LEVEL_CAUTION, VALUE_LENGTH,
     N_("the part of {a} reaches {value} over the edge of its face; up to {limit} is allowed"),
     N_("move the station in by {more}, so that the part is held up all over")},
};

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Gap gap;
    const Frame *frame = placed_frame(context->placed, a->face);
    shape_room(&frame->extent, &a->shape, &gap);
    if (!falls_short(context->limits[OVERHANG], -gap.distance))
        return;
    Finding *finding = rule_report(context, 0, a, NULL, -gap.distance, context->limits[OVERHANG]);
    rule_report_between(finding, gap.on_b, gap.on_a);
}

const Rule rule_part_overhang = {
    .slug = "part-overhang",
    .title = N_("Part over the edge"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_PART,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
