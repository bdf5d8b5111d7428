/* shoulder-seat: the end of a shoulder comes down on a ring of plate round the thread. */
#include "checks/fastener.h"
#include "checks/hardware.h"
#include "checks/hole-steps.h"

enum { RING };

static const RuleLimit limits[] = {
    [RING] = {"ring", 0.1, VALUE_LENGTH, N_("width of the ring that a shoulder's end stands on"),
              N_("common practice: the smallest standard screw leaves 0.114 mm, no source")},
};

enum { CASE_THROUGH, CASE_NONE, CASE_NARROW, CASE_BOTTOMS };

static const RuleCase cases[] = {
    [CASE_THROUGH] =
        {LEVEL_STOP, VALUE_NONE,
         N_("the shoulder of {a} falls right through its hole: it has no seat"),
         N_("give the hole a thread, and a step that ends where the shoulder is to stand")},
    [CASE_NONE] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("the thread, insert or chamfer below the shoulder of {a} is {over} a side larger "
            "than the shoulder: it has no seat"),
         N_("make the chamfer smaller, or leave the insert out")},
    [CASE_NARROW] = {LEVEL_CAUTION, VALUE_LENGTH,
                     N_("the shoulder of {a} stands on a ring of {value}; {limit} is needed"),
                     N_("make the chamfer smaller, or leave the insert out")},
    [CASE_BOTTOMS] = {LEVEL_STOP, VALUE_LENGTH,
                      N_("the screw of {a} reaches {limit} deep, but its hole has full thread to "
                         "{value}: the screw jams before its shoulder is down"),
                      N_("tap {less} deeper")},
};

/* The widest that the hole is just below the shoulder's end. */
static double width_below(const Fastener *fastener, double end)
{
    double width = 0;
    for (uint32_t i = 0; i < fastener->hole->steps.count; i++) {
        const Step *step = LIST_AT(&fastener->hole->steps, Step, i);
        double own = step_width_at(step, fastener->frame, fastener_at(fastener), end);
        const Insert *insert = own > 0 ? hardware_insert(step) : NULL;
        if (insert)
            own = fmax(own, length_to_mm(insert->tap_major));
        width = fmax(width, own);
    }
    return width;
}

/* Where the tap's full thread ends, when the screw's end would meet it. */
static bool check_thread_end(RuleContext *context, const Fastener *fastener,
                             const ShoulderScrew *screw, double end)
{
    const Step *tap = hole_tap(fastener->hole);
    if (!tap || tap->through)
        return true;
    double thread_end = step_depth(tap, fastener->frame, fastener_at(fastener));
    double screw_end = end + length_to_mm(screw->thread_length);
    double metal = frame_depth_at(fastener->frame, fastener_at(fastener));
    if (falls_short(thread_end, screw_end) && falls_short(thread_end, metal))
        return !fastener_report(context, CASE_BOTTOMS, fastener, thread_end, screw_end);
    return true;
}

static void check_one(RuleContext *context, const Fastener *fastener, void *data)
{
    const ShoulderScrew *screw = hardware_shoulder_screw(fastener->fitting);
    if (!screw)
        return;
    double greatest, least, end = fastener_shoulder_end(fastener);
    hardware_pin_limits(fastener->fitting, &greatest, &least);
    if (isinf(end)) {
        fastener_report(context, CASE_THROUGH, fastener, 0, 0);
        return;
    }
    double ring = (least - width_below(fastener, end)) / 2, limit = context->limits[RING];
    if (falls_short(ring, 0))
        fastener_report(context, CASE_NONE, fastener, ring, limit);
    else if (check_thread_end(context, fastener, screw, end) && falls_short(ring, limit))
        fastener_report(context, CASE_NARROW, fastener, ring, limit);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_fastener(context, a, check_one, NULL);
}

const Rule rule_shoulder_seat = {
    .slug = "shoulder-seat",
    .title = N_("Seat below a shoulder"),
    .scope = SCOPE_FEATURE,
    .kinds = FASTENER_KINDS,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
