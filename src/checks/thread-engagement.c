/* thread-engagement: a screw has enough thread in the plate. Hold-downs go by the rule of thumb;
 * shoulder screws, whose short threads never reach it, by what strips (FED-STD-H28/2). */
#include "trade/engagement.h"

#include "checks/fastener.h"
#include "checks/hardware.h"
#include "checks/hole-steps.h"

enum { ALUMINIUM, STEEL, SHARE, STRENGTH };

static const RuleLimit limits[] = {
    [ALUMINIUM] = {"aluminium", 1.5, VALUE_COUNT,
                   N_("thread diameters of engagement for a hold-down in aluminium"),
                   N_("common practice, no source")},
    [STEEL] = {"steel", 1.0, VALUE_COUNT,
               N_("thread diameters of engagement for a hold-down in steel"),
               N_("common practice, no source")},
    [SHARE] = {"share", 0.5, VALUE_COUNT,
               N_("share of what breaks a shoulder screw that its thread in the plate must stand"),
               N_("common practice, no source; areas by FED-STD-H28/2")},
    [STRENGTH] = {"strength", 965, VALUE_COUNT, N_("tensile strength of shoulder screws, N/mm2"),
                  N_("ASME B18.3: 140,000 psi (from memory)")},
};

enum { CASE_NO_THREAD, CASE_OTHER_THREAD, CASE_HOLD_DOWN, CASE_SHOULDER };

static const RuleCase cases[] = {
    [CASE_NO_THREAD] = {LEVEL_STOP, VALUE_NONE, N_("the hole of {a} has no thread"),
                        N_("tap the hole")},
    [CASE_OTHER_THREAD] = {LEVEL_STOP, VALUE_NONE, N_("the thread of the hole is not that of {a}"),
                           N_("tap the hole for the screw, or choose another screw")},
    [CASE_HOLD_DOWN] = {LEVEL_CAUTION, VALUE_LENGTH,
                        N_("{a} has {value} of thread in the plate; {limit} is needed"),
                        N_("tap {less} deeper")},
    [CASE_SHOULDER] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("{a} has {value} of thread in the plate; {limit} is needed for it to stand "
            "being tightened"),
         N_("tap deeper, or choose a larger screw, a longer thread or a stronger plate")},
};

/* Where the hole's thread begins: below what is wider, and below what the part lies on. */
static double thread_top(const Fastener *fastener, const Step *tap)
{
    double top = fastener->seat;
    for (uint32_t i = 0; i < fastener->hole->steps.count; i++) {
        const Step *step = LIST_AT(&fastener->hole->steps, Step, i);
        bool cone = step->kind == STEP_SPOT || step->kind == STEP_COUNTERSINK;
        if (step->kind != STEP_TAP && !cone && step->diameter >= tap->diameter)
            top = fmax(top, step_depth(step, fastener->frame, fastener_at(fastener)));
    }
    return top;
}

static void check_hold_down(RuleContext *context, const Fastener *fastener, const Step *tap,
                            const Thread *thread)
{
    double engaged =
        step_depth(tap, fastener->frame, fastener_at(fastener)) - thread_top(fastener, tap);
    double needed = rule_limit_by_metal(context, ALUMINIUM, STEEL) * length_to_mm(thread->major);
    if (falls_short(engaged, needed))
        fastener_report(context, CASE_HOLD_DOWN, fastener, fmax(0, engaged), needed);
}

/* The thread below the neck, as far as the hole is tapped. Both what strips in the plate and what
 * strips on the screw must stand the share. */
static void check_shoulder(RuleContext *context, const Fastener *fastener, const Step *tap,
                           const Thread *thread, const ShoulderScrew *screw)
{
    Engagement engagement;
    double end = fastener_shoulder_end(fastener);
    double from = fmax(end + length_to_mm(screw->thread_neck), thread_top(fastener, tap));
    double to = fmin(end + length_to_mm(screw->thread_length),
                     step_depth(tap, fastener->frame, fastener_at(fastener)));
    const Material *plate = hardware_plate_material(placed_settings(context->placed));
    if (isinf(end) || !plate ||
        !engagement_needed(thread, plate, context->limits[STRENGTH], &engagement, NULL))
        return;
    double full = fmax(engagement.plate_strips, engagement.screw_strips);
    double needed = context->limits[SHARE] * full;
    if (falls_short(to - from, needed))
        fastener_report(context, CASE_SHOULDER, fastener, fmax(0, to - from), needed);
}

static void check_one(RuleContext *context, const Fastener *fastener, void *data)
{
    const ShoulderScrew *shoulder = hardware_shoulder_screw(fastener->fitting);
    const Screw *screw = hardware_screw(fastener->fitting);
    const Step *tap = hole_tap(fastener->hole);
    if (!fitting_holds_down(fastener->fitting) || (!tap && !shoulder && !screw))
        return;
    if (!tap) {
        fastener_report(context, CASE_NO_THREAD, fastener, 0, 0);
        return;
    }
    const Thread *thread = hardware_thread(tap);
    if (!thread)
        return;
    bool other = (screw && g_ascii_strcasecmp(screw->size, thread->size) != 0) ||
                 (shoulder && thread_find(shoulder->thread, NULL) != thread);
    if (other)
        fastener_report(context, CASE_OTHER_THREAD, fastener, 0, 0);
    else if (shoulder)
        check_shoulder(context, fastener, tap, thread, shoulder);
    else if (fastener->fitting->kind == FITTING_HOLD_DOWN)
        check_hold_down(context, fastener, tap, thread);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_fastener(context, a, check_one, NULL);
}

const Rule rule_thread_engagement = {
    .slug = "thread-engagement",
    .title = N_("Thread in the plate"),
    .scope = SCOPE_FEATURE,
    .kinds = FASTENER_KINDS,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
