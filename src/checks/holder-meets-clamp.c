/* holder-meets-clamp: the holder above a cutter against the clamps, screws and pins that are on the
 * plate at that operation, and against what is kept clear. */
#include "checks/passes.h"

enum { ROOM };

static const RuleLimit limits[] = {
    [ROOM] = {"room", 1, VALUE_LENGTH, N_("room between a holder and hardware"),
              N_("common practice, no source")},
};

enum { CASE_MEETS, CASE_NEAR };

static const RuleCase cases[] = {
    [CASE_MEETS] = {LEVEL_STOP, VALUE_LENGTH,
                    N_("at {operation} the holder above the part of {a} runs into {b} by {over} or "
                       "more"),
                    N_("let the cutter stand further out of its holder, use a smaller holder, or "
                       "lower hardware")},
    [CASE_NEAR] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("at {operation} the holder above the part of {a} passes {value} from {b}; at "
            "least {limit} is wanted"),
         N_("let the cutter stand {less} further out of its holder, or use lower hardware")},
};

static Reach reach(const Placed *placed, const double *values)
{
    return reach_of_sweeps(placed, values[ROOM]);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    HardwareRoom room = {SWEEPER_HOLDER, CASE_MEETS, CASE_NEAR, context->limits[ROOM]};
    check_hardware_room(context, a, b, &room);
}

const Rule rule_holder_meets_clamp = {
    .slug = "holder-meets-clamp",
    .title = N_("Holder runs into hardware"),
    .scope = SCOPE_PAIR,
    .kinds = FEATURE_PART,
    .other_kinds = FEATURE_FITTING | FEATURE_KEEP_CLEAR,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .reach_anywhere = reach,
    .check = check,
};
