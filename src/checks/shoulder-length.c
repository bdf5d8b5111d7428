/* shoulder-length: the shoulder is as long as the part is thick: longer, and the head does not
 * press; far shorter, and the shoulder's end hangs over its seat. */
#include "checks/fastener.h"

enum { LONGER, SHORTER };

static const RuleLimit limits[] = {
    [LONGER] = {"longer", 0.1, VALUE_LENGTH,
                N_("play that the thinnest part may have under a shoulder screw's head"),
                N_("common practice, no source")},
    [SHORTER] = {"shorter", 0.5, VALUE_LENGTH,
                 N_("how far the end of a shoulder may hang over its seat in the thickest part"),
                 N_("common practice, no source")},
};

enum { CASE_LONG, CASE_SHORT };

static const RuleCase cases[] = {
    [CASE_LONG] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("the shoulder of {a} is {value} longer than the part may be thick, and does not "
            "press it down; {limit} is allowed"),
         N_("choose or grind a shorter shoulder, or put a shim under the head")},
    [CASE_SHORT] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("the shoulder of {a} is {value} shorter than the part may be thick, and hangs "
            "over its seat; {limit} is allowed"),
         N_("choose a longer shoulder")},
};

/* The length in the part is asked for; a shoulder that a counterbore takes is longer by its depth.
 */
static void check_one(RuleContext *context, const Fastener *fastener, void *data)
{
    const Fitting *fitting = fastener->fitting;
    const Part *part = fastener->part;
    if (fitting->kind != FITTING_SHOULDER_SCREW || !part || !fitting->part_hole ||
        part->thickness <= 0 || fitting->length <= 0)
        return;
    double longer = length_to_mm(fitting->length - (part->thickness - part->thickness_tolerance));
    double shorter = length_to_mm(part->thickness + part->thickness_tolerance - fitting->length);
    if (falls_short(context->limits[LONGER], longer))
        fastener_report(context, CASE_LONG, fastener, longer, context->limits[LONGER]);
    else if (falls_short(context->limits[SHORTER], shorter))
        fastener_report(context, CASE_SHORT, fastener, shorter, context->limits[SHORTER]);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_fastener(context, a, check_one, NULL);
}

const Rule rule_shoulder_length = {
    .slug = "shoulder-length",
    .title = N_("Shoulder longer or shorter than the part"),
    .scope = SCOPE_FEATURE,
    .kinds = FASTENER_KINDS,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
