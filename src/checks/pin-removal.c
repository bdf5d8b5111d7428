/* pin-removal: a pin that fits tightly can be driven out again, from below. */
#include "checks/fastener.h"
#include "checks/hardware.h"
#include "checks/hole-steps.h"

enum { PUNCH };

static const RuleLimit limits[] = {
    [PUNCH] = {"punch", 0.5, VALUE_COUNT,
               N_("diameters of the pin that the hole below it takes a punch through"),
               N_("common practice, no source")},
};

enum { CASE_BLIND, CASE_NARROW };

static const RuleCase cases[] = {
    [CASE_BLIND] = {LEVEL_CAUTION, VALUE_NONE,
                    N_("{a} fits tightly in a blind hole: it can't be driven out again"),
                    N_("drill a smaller hole right through below it, or use a pin with a thread to "
                       "pull it by")},
    [CASE_NARROW] = {LEVEL_CAUTION, VALUE_COUNT,
                     N_("below {a} the hole is {value} of its diameter; a punch needs {limit}"),
                     N_("drill the hole below it larger")},
};

/* The narrowest that is bored or reamed for the pin; infinite where nothing is. */
static double least_bore(const Hole *hole, double pin)
{
    double least = INFINITY;
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        bool fits = step->kind == STEP_REAM || step->kind == STEP_BORE || step->kind == STEP_DRILL;
        double diameter = length_to_mm(step->diameter + step->lower);
        /* Smaller ones are what it was drilled with before. */
        if (fits && diameter > 0.98 * pin)
            least = fmin(least, diameter);
    }
    return least;
}

/* The largest step that goes right through; 0 for a blind hole. */
static double width_through(const Fastener *fastener)
{
    double width = 0;
    double metal = frame_depth_at(fastener->frame, fastener_at(fastener));
    for (uint32_t i = 0; i < fastener->hole->steps.count; i++) {
        const Step *step = LIST_AT(&fastener->hole->steps, Step, i);
        double depth = step_depth(step, fastener->frame, fastener_at(fastener));
        if (step->kind != STEP_SPOT && step->kind != STEP_COUNTERSINK && !falls_short(depth, metal))
            width = fmax(width, length_to_mm(step->diameter));
    }
    return width;
}

static void check_one(RuleContext *context, const Fastener *fastener, void *data)
{
    double greatest, least;
    int kind = fastener->fitting->kind;
    if (kind != FITTING_DOWEL && kind != FITTING_RELIEVED_PIN)
        return;
    hardware_pin_limits(fastener->fitting, &greatest, &least);
    if (hole_tap(fastener->hole) || !falls_short(least_bore(fastener->hole, greatest), greatest))
        return;
    double width = width_through(fastener), share = width / greatest;
    if (width <= 0)
        fastener_report(context, CASE_BLIND, fastener, 0, 0);
    else if (falls_short(share, context->limits[PUNCH]))
        fastener_report(context, CASE_NARROW, fastener, share, context->limits[PUNCH]);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_fastener(context, a, check_one, NULL);
}

const Rule rule_pin_removal = {
    .slug = "pin-removal",
    .title = N_("Pin that can't be driven out"),
    .scope = SCOPE_FEATURE,
    .kinds = FASTENER_KINDS,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
