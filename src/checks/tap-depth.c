/* tap-depth: a blind hole is drilled deep enough for the tap's chamfer below the full thread. */
#include "checks/hardware.h"
#include "checks/hole-steps.h"
#include "checks/rule.h"
#include "trade/tap.h"

enum { CASE_BLIND, CASE_SHALLOW, CASE_PLUG };

static const RuleCase cases[] = {
    [CASE_BLIND] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("{a} is tapped right through, but drilled {value} deep; the plate is {limit} "
            "thick there"),
         N_("drill right through, or give the thread a depth")},
    [CASE_SHALLOW] = {LEVEL_STOP, VALUE_LENGTH,
                      N_("{a} is drilled {value} deep; for its full thread the tap needs {limit}"),
                      N_("drill {less} deeper, or tap less deep")},
    [CASE_PLUG] = {LEVEL_NOTE, VALUE_LENGTH,
                   N_("{a} is drilled {value} deep; with a plug tap its full thread needs {limit}"),
                   N_("tap it with a bottoming or spiral-flute tap, and say so in the hole")},
};

/* A forming tap's lead is taken as a spiral-flute tap's (common practice, no source). */
static const TapKind kinds[] = {
    [STEP_TAP_UNSTATED] = TAP_BOTTOMING,   [STEP_TAP_PLUG] = TAP_PLUG,
    [STEP_TAP_BOTTOMING] = TAP_BOTTOMING,  [STEP_TAP_SPIRAL_FLUTE] = TAP_SPIRAL_FLUTE,
    [STEP_TAP_FORMING] = TAP_SPIRAL_FLUTE,
};

/* A hole with no drill for its tap is tap-drill's business. False once something is reported. */
static bool check_tap(RuleContext *context, const Feature *a, const Hole *hole, const Step *tap)
{
    Thread thread;
    const Frame *frame = placed_frame(context->placed, a->face);
    if (!hardware_tapped_thread(tap, &thread))
        return true;
    Step widest = *tap;
    widest.diameter = thread.major;
    const Step *drill = step_before(hole, &widest);
    if (!drill || drill->through)
        return true;
    Point at = feature_at(a);
    double metal = frame_depth_at(frame, at);
    double drilled = step_depth(drill, frame, at), thread_depth = step_depth(tap, frame, at);
    if (!falls_short(drilled, metal))
        return true;
    if (tap->through)
        return !rule_report(context, CASE_BLIND, a, NULL, drilled, metal);
    double needed = tap_drill_depth(&thread, kinds[tap->tap], thread_depth);
    if (falls_short(drilled, needed))
        return !rule_report(context, CASE_SHALLOW, a, NULL, drilled, needed);
    double with_plug = tap_drill_depth(&thread, TAP_PLUG, thread_depth);
    if (tap->tap == STEP_TAP_UNSTATED && falls_short(drilled, with_plug))
        return !rule_report(context, CASE_PLUG, a, NULL, drilled, with_plug);
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

const Rule rule_tap_depth = {
    .slug = "tap-depth",
    .title = N_("Room below a blind thread"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_HOLE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .check = check,
};
