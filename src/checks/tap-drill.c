/* tap-drill: the hole drilled for a tap leaves as much thread as the tap can cut and the screw
 * needs. */
#include "checks/hardware.h"
#include "checks/hole-steps.h"
#include "checks/rule.h"

enum { LEAST, GREATEST, FORMED_LEAST, FORMED_GREATEST };

static const RuleLimit limits[] = {
    [LEAST] = {"least", 55, VALUE_COUNT, N_("per cent of full thread, cut, at least"),
               N_("common practice, no source")},
    [GREATEST] = {"greatest", 83, VALUE_COUNT, N_("per cent of full thread, cut, at most"),
                  N_("common practice, no source")},
    [FORMED_LEAST] = {"formed_least", 50, VALUE_COUNT,
                      N_("per cent of full thread, formed, at least"),
                      N_("common practice, no source")},
    [FORMED_GREATEST] = {"formed_greatest", 80, VALUE_COUNT,
                         N_("per cent of full thread, formed, at most"),
                         N_("common practice, no source")},
};

enum { CASE_NONE, CASE_MUCH, CASE_LITTLE };

static const RuleCase cases[] = {
    [CASE_NONE] = {LEVEL_CAUTION, VALUE_NONE,
                   N_("{a} is tapped, but nothing is drilled for the tap"),
                   N_("add a drill before the tap")},
    [CASE_MUCH] =
        {LEVEL_CAUTION, VALUE_COUNT,
         N_("the drill of {a} leaves {value} per cent of the thread for the tap, which may "
            "break; {limit} is the most"),
         N_("drill larger before the tap")},
    [CASE_LITTLE] =
        {LEVEL_CAUTION, VALUE_COUNT,
         N_("the drill of {a} leaves {value} per cent of the thread; at least {limit} is "
            "needed"),
         N_("drill smaller before the tap")},
};

/* False once something is reported. */
static bool check_tap(RuleContext *context, const Feature *a, const Hole *hole, const Step *tap)
{
    Thread thread;
    if (!hardware_tapped_thread(tap, &thread))
        return true;
    Step widest = *tap;
    widest.diameter = thread.major;
    const Step *drill = step_before(hole, &widest);
    if (!drill)
        return !rule_report(context, CASE_NONE, a, NULL, 0, 0);
    bool formed = tap->tap == STEP_TAP_FORMING;
    double diameter = length_to_mm(drill->diameter);
    double per_cent =
        formed ? thread_per_cent_formed(&thread, diameter) : thread_per_cent(&thread, diameter);
    double greatest = context->limits[formed ? FORMED_GREATEST : GREATEST];
    double least = context->limits[formed ? FORMED_LEAST : LEAST];
    if (falls_short(greatest, per_cent))
        return !rule_report(context, CASE_MUCH, a, NULL, per_cent, greatest);
    if (falls_short(per_cent, least))
        return !rule_report(context, CASE_LITTLE, a, NULL, per_cent, least);
    return true;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Hole *hole = &placed_record(context->placed, a->id)->hole;
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        if (step->kind == STEP_TAP && !check_tap(context, a, hole, step))
            return;
    }
}

const Rule rule_tap_drill = {
    .slug = "tap-drill",
    .title = N_("Drill for a tap"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_HOLE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
