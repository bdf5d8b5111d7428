/* shoulder-guided: what holds a shoulder screw upright and in its place: a reamed or bored step
 * that takes the shoulder, or its thread alone, which has play. */
#include "checks/fastener.h"
#include "checks/hardware.h"
#include "checks/hole-steps.h"

enum { OFF };

static const RuleLimit limits[] = {
    [OFF] = {"off", 0.1, VALUE_LENGTH, N_("how far from its hole's axis a shoulder may stand"),
             N_("common practice, no source")},
};

enum { CASE_THREAD, CASE_BORE };

static const RuleCase cases[] = {
    [CASE_THREAD] =
        {LEVEL_NOTE, VALUE_LENGTH,
         N_("its thread alone guides {a}, which can stand {value} from the hole's axis; "
            "{limit} is allowed"),
         N_("bore or ream the top of the hole to take the shoulder, or measure where it "
            "stands")},
    [CASE_BORE] =
        {LEVEL_NOTE, VALUE_LENGTH,
         N_("the bore of {a} lets its shoulder stand {value} from the hole's axis; {limit} "
            "is allowed"),
         N_("bore or ream it closer to the shoulder")},
};

/* How far the shoulder can be from the axis of the closest step that takes it; infinite: none does.
 */
static double play_in_bore(const Fastener *fastener)
{
    double greatest, least, closest = INFINITY;
    hardware_pin_limits(fastener->fitting, &greatest, &least);
    for (uint32_t i = 0; i < fastener->hole->steps.count; i++) {
        const Step *step = LIST_AT(&fastener->hole->steps, Step, i);
        bool bore =
            step->kind == STEP_REAM || step->kind == STEP_BORE || step->kind == STEP_COUNTERBORE;
        double play = (length_to_mm(step->diameter + step->upper) - least) / 2;
        bool deep =
            falls_short(fastener->seat, step_depth(step, fastener->frame, fastener_at(fastener)));
        if (bore && deep && !falls_short(play, 0))
            closest = fmin(closest, play);
    }
    return closest;
}

/* Half of the most that the pitch diameters of a 2B or 6H hole and a 2A or 6g screw differ. */
static bool play_in_thread(const Fastener *fastener, double *play)
{
    ThreadLimits thread;
    const Step *tap = hole_tap(fastener->hole);
    const Thread *known = tap ? hardware_thread(tap) : NULL;
    if (!known || !thread_limits(known, &thread, NULL))
        return false;
    *play = length_to_mm(thread.internal_pitch_greatest - thread.external_pitch_least) / 2;
    return true;
}

static void check_one(RuleContext *context, const Fastener *fastener, void *data)
{
    double in_thread, in_bore, limit = context->limits[OFF];
    if (!hardware_shoulder_screw(fastener->fitting) || !play_in_thread(fastener, &in_thread))
        return;
    in_bore = play_in_bore(fastener);
    double off = fmin(in_bore, in_thread);
    if (falls_short(limit, off))
        fastener_report(context, in_bore < in_thread ? CASE_BORE : CASE_THREAD, fastener, off,
                        limit);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_fastener(context, a, check_one, NULL);
}

const Rule rule_shoulder_guided = {
    .slug = "shoulder-guided",
    .title = N_("Shoulder guided by its thread alone"),
    .scope = SCOPE_FEATURE,
    .kinds = FASTENER_KINDS,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
