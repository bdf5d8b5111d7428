/* outside-plate: what is cut or fitted must lie on the face's own metal. */
#include "checks/rule.h"

static const RuleCase cases[] = {
    {LEVEL_STOP, VALUE_LENGTH, N_("{a} reaches {over} over the edge of its face"),
     N_("move it in by {over}, or further for the wall it needs")},
    {LEVEL_CAUTION, VALUE_LENGTH,
     N_("{a} reaches {over} over the edge of its face; that is right only for a slot meant to be "
        "open"),
     N_("move it in by {over}, or leave it where the slot is meant to be open")},
};

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Gap gap;
    const Frame *frame = placed_frame(context->placed, a->face);
    shape_room(&frame->extent, &a->shape, &gap);
    if (!falls_short(gap.distance, 0))
        return;
    Finding *finding =
        rule_report(context, a->kind == FEATURE_RECESS ? 1 : 0, a, NULL, gap.distance, 0);
    rule_report_between(finding, gap.on_b, gap.on_a);
}

const Rule rule_outside_plate = {
    .slug = "outside-plate",
    .title = N_("Over the edge of the plate"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_CUT | FEATURE_FITTING,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .check = check,
};
