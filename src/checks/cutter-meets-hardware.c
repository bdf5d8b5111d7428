/* cutter-meets-hardware: the cutter of a pass against the screws, pins and clamps that are on the
 * plate at that operation, and against what is kept clear. */
#include "checks/passes.h"

enum { ROOM };

static const RuleLimit limits[] = {
    [ROOM] = {"room", 0.5, VALUE_LENGTH, N_("room between a cutter and hardware"),
              N_("common practice, no source")},
};

enum { CASE_MEETS, CASE_NEAR };

static const RuleCase cases[] = {
    [CASE_MEETS] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("at {operation} the cutter at the part of {a} runs into {b} by {over} or more"),
         N_("take it off at that operation, move it, or use a smaller cutter")},
    [CASE_NEAR] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("at {operation} the cutter at the part of {a} passes {value} from {b}; at least "
            "{limit} is wanted"),
         N_("take it off at that operation, move it {less} away, or use a smaller cutter")},
};

static Reach reach(const Placed *placed, const double *values)
{
    return reach_of_sweeps(placed, values[ROOM]);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    HardwareRoom room = {SWEEPER_CUTTER, CASE_MEETS, CASE_NEAR, context->limits[ROOM]};
    check_hardware_room(context, a, b, &room);
}

const Rule rule_cutter_meets_hardware = {
    .slug = "cutter-meets-hardware",
    .title = N_("Cutter runs into hardware"),
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
