/* shoulder-bearing: the part bears on the ground shoulder, not on the neck under the head alone. */
#include "checks/fastener.h"
#include "checks/hardware.h"

enum { SHARE };

static const RuleLimit limits[] = {
    [SHARE] = {"share", 0.5, VALUE_COUNT,
               N_("share of the part's thickness that bears on the full shoulder"),
               N_("common practice, no source")},
};

enum { CASE_NONE, CASE_LITTLE };

static const RuleCase cases[] = {
    [CASE_NONE] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("the neck under the head of {a} is as long as its shoulder: nothing locates the "
            "part"),
         N_("choose a smaller screw, whose neck is shorter, or a dowel")},
    [CASE_LITTLE] = {LEVEL_CAUTION, VALUE_LENGTH,
                     N_("{value} of the part bears on the full shoulder of {a}; the neck under the "
                        "head takes the rest, and {limit} is needed"),
                     N_("choose a smaller screw, whose neck is shorter, or a dowel")},
};

/* The neck lies under the head, wherever the head is: the full shoulder reaches from the seat to
 * its length less the neck. */
static void check_one(RuleContext *context, const Fastener *fastener, void *data)
{
    const ShoulderScrew *screw = hardware_shoulder_screw(fastener->fitting);
    const Part *part = fastener->part;
    if (!screw || !part || !fastener->fitting->part_hole || part->thickness <= 0 ||
        fastener->fitting->length <= 0)
        return;
    double full = length_to_mm(fastener->fitting->length - screw->head_neck);
    double thickness = length_to_mm(part->thickness), bears = fmin(full, thickness);
    double limit = context->limits[SHARE] * thickness;
    if (!falls_short(0, bears))
        fastener_report(context, CASE_NONE, fastener, bears, limit);
    else if (falls_short(bears, limit))
        fastener_report(context, CASE_LITTLE, fastener, bears, limit);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_fastener(context, a, check_one, NULL);
}

const Rule rule_shoulder_bearing = {
    .slug = "shoulder-bearing",
    .title = N_("Part bears on the neck, not the shoulder"),
    .scope = SCOPE_FEATURE,
    .kinds = FASTENER_KINDS,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
