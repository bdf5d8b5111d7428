/* ream-floor: below a blind reamed hole the drill goes deeper, for the reamer's lead and its chips.
 */
#include "checks/hole-steps.h"
#include "checks/rule.h"

enum { LEAD };

static const RuleLimit limits[] = {
    [LEAD] = {"lead", 1.0, VALUE_LENGTH, N_("drilled depth below a reamed one, at least"),
              N_("common practice: a machine reamer's lead, no source")},
};

static const RuleCase cases[] = {
    {LEVEL_CAUTION, VALUE_LENGTH,
     N_("{a} is drilled {value} deeper than it is reamed; {limit} is needed for the reamer's lead "
        "and "
        "chips"),
     N_("drill {less} deeper, or ream less deep")},
};

/* A reamer without a drill before it is ream-stock's business. */
static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Hole *hole = &placed_record(context->placed, a->id)->hole;
    const Frame *frame = placed_frame(context->placed, a->face);
    double metal = frame_depth_at(frame, feature_at(a));
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *ream = LIST_AT(&hole->steps, Step, i);
        const Step *drill = ream->kind == STEP_REAM ? step_before(hole, ream) : NULL;
        if (!drill)
            continue;
        double drilled = step_depth(drill, frame, feature_at(a));
        double left = drilled - step_depth(ream, frame, feature_at(a));
        if (drill->through || !falls_short(drilled, metal) ||
            !falls_short(left, context->limits[LEAD]))
            continue;
        rule_report(context, 0, a, NULL, left, context->limits[LEAD]);
        return;
    }
}

const Rule rule_ream_floor = {
    .slug = "ream-floor",
    .title = N_("Room below a reamed hole"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_HOLE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
