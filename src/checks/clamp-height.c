/* clamp-height: an edge clamp stays below the blank's top, and grips enough of its side. */
#include "checks/clamp-contact.h"

enum { BELOW, GRIP };

static const RuleLimit limits[] = {
    [BELOW] = {"below", 0.1, VALUE_LENGTH,
               N_("how far an edge clamp stays below the top of its blank"),
               N_("common practice, no source")},
    [GRIP] = {"grip", 0.5, VALUE_LENGTH, N_("height of the blank's side that an edge clamp grips"),
              N_("common practice, no source")},
};

enum { CASE_ABOVE, CASE_NEAR_TOP, CASE_GRIP };

static const RuleCase cases[] = {
    [CASE_ABOVE] = {LEVEL_CAUTION, VALUE_LENGTH,
                    N_("{a} stands {over} above the blank of {b}, in the way of the cutter"),
                    N_("make its slot deeper, or choose a lower clamp")},
    [CASE_NEAR_TOP] = {LEVEL_CAUTION, VALUE_LENGTH,
                       N_("{a} stays {value} below the top of the blank of {b}; {limit} is needed"),
                       N_("make its slot deeper, or choose a lower clamp")},
    [CASE_GRIP] = {LEVEL_STOP, VALUE_LENGTH,
                   N_("{a} grips {value} of the side of the blank of {b}; {limit} is needed"),
                   N_("make the nest shallower or the slot less deep, or choose a higher clamp")},
};

static void check_one(RuleContext *context, const ClampContact *contact)
{
    if (!contact->part || contact->top + contact->seat <= 0)
        return;
    double below = contact->top - contact->clamp->top;
    double from = fmax(contact->clamp->bottom, -contact->seat);
    double grip = fmin(contact->clamp->top, contact->top) - from;
    if (falls_short(grip, context->limits[GRIP]))
        clamp_report(context, CASE_GRIP, contact, fmax(0, grip), context->limits[GRIP]);
    else if (falls_short(below, 0))
        clamp_report(context, CASE_ABOVE, contact, below, context->limits[BELOW]);
    else if (falls_short(below, context->limits[BELOW]))
        clamp_report(context, CASE_NEAR_TOP, contact, below, context->limits[BELOW]);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    ClampContact contact;
    if (clamp_contact(context->placed, a, &contact))
        check_one(context, &contact);
}

const Rule rule_clamp_height = {
    .slug = "clamp-height",
    .title = N_("Clamp above the work, or below its side"),
    .scope = SCOPE_CLAMP,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
