/* comes-loose: once its profile is cut, a part is held by the fasteners through it alone: never by
 * fewer than two, and where the force of the cutter is known, by enough against it, at each
 * operation with what is fitted then. The forces are estimates. */
#include "checks/fastener.h"
#include "checks/hardware.h"
#include "checks/hole-steps.h"
#include "checks/passes.h"
#include "trade/holding.h"

enum { FASTENERS, FRICTION, FACTOR, LIFT, STRESS };

static const RuleLimit limits[] = {
    [FASTENERS] = {"fasteners", 2, VALUE_COUNT,
                   N_("screws that must hold a part once it is cut free"),
                   N_("common practice, no source")},
    [FRICTION] = {"friction", HOLDING_FRICTION, VALUE_COUNT, N_("friction of wet metal on metal"),
                  N_("common practice, no source")},
    [FACTOR] = {"factor", HOLDING_FACTOR, VALUE_COUNT,
                N_("how many times the cutter's force the screws must hold"),
                N_("common practice, no source")},
    [LIFT] = {"lift", 0.58, VALUE_COUNT, N_("share of a cutter's force that lifts the part"),
              N_("common practice: the tangent of a helix of 30 degrees, no source")},
    [STRESS] = {"stress", 200, VALUE_COUNT, N_("what a screw is tightened to, N/mm2"),
                N_("common practice, no source")},
};

enum { CASE_FEW, CASE_FEW_MEANWHILE, CASE_SLIDES, CASE_LIFTS };

static const RuleCase cases[] = {
    [CASE_FEW] =
        {LEVEL_STOP, VALUE_COUNT,
         N_("once its profile is cut the part of {a} has {value} of the {limit} screws that "
            "must hold it"),
         N_("add hold-downs or shoulder screws through the part's holes")},
    [CASE_FEW_MEANWHILE] =
        {LEVEL_STOP, VALUE_COUNT,
         N_("at {operation} the part of {a} is free of its blank and held by "
            "{value} of the {limit} screws that must hold it"),
         N_("fit hold-downs or shoulder screws through the part's holes before")},
    [CASE_SLIDES] =
        {LEVEL_CAUTION, VALUE_COUNT,
         N_("at {operation} the screws hold the part of {a} against {value} N sideways, "
            "and {limit} N are needed (an estimate)"),
         N_("add a second locator or more hold-downs, or cut with less force")},
    [CASE_LIFTS] =
        {LEVEL_CAUTION, VALUE_COUNT,
         N_("at {operation} the screws press the part of {a} down with {value} N, and "
            "{limit} N are needed against the cutter's lift (an estimate)"),
         N_("add hold-downs, shorten the shoulders so that their heads press, or cut with "
            "less force")},
};

typedef struct Hold {
    const Operation *operation; /* NULL, or one that does not say what is fitted: all that is */
    bool by_force;              /* a pass says how hard it pushes: then `press` is worked out */
    int screws, locators;       /* through the part's holes */
    double press;               /* N, of the screws whose heads press on the part */
} Hold;

static bool is_fitted(const Hold *hold, const Feature *fitting)
{
    return !hold->operation || hold->operation->fitted.count == 0 ||
           operation_has_fitted(hold->operation, fitting->id);
}

/* A shoulder's head presses on the part only where the shoulder is shorter than the part is at its
 * thinnest. */
static bool presses(const Fitting *fitting, const Part *part)
{
    return fitting->kind == FITTING_HOLD_DOWN ||
           fitting->length < part->thickness - part->thickness_tolerance;
}

static void count_fastener(RuleContext *context, const Fastener *fastener, void *data)
{
    Hold *hold = data;
    const Fitting *fitting = fastener->fitting;
    if (fitting->part_hole <= 0 || !is_fitted(hold, fastener->feature))
        return;
    hold->locators += fitting_locates(fitting);
    hold->screws += fitting_holds_down(fitting);
    if (!hold->by_force || !fitting_holds_down(fitting) || !fastener->part ||
        !presses(fitting, fastener->part))
        return;
    const Step *tap = hole_tap(fastener->hole);
    const Thread *thread = tap ? hardware_thread(tap) : NULL;
    if (thread)
        hold->press += context->limits[STRESS] * thread_tensile_area(thread);
}

static double greatest_force(const Operation *operation)
{
    int64_t greatest = 0;
    for (uint32_t i = 0; i < operation->passes.count; i++)
        greatest = MAX(greatest, LIST_AT(&operation->passes, Pass, i)->force);
    return (double)greatest / 1e6;
}

/* Two locators hold the part sideways whatever its screws do, and nothing but the screws' heads
 * holds it down. Friction acts under the part and under the heads. */
static void check_force(RuleContext *context, const Record *operation, const Feature *station,
                        const Hold *hold)
{
    double sideways = friction_hold(hold->press, context->limits[FRICTION], 2);
    double needed = context->limits[FACTOR] * greatest_force(&operation->operation);
    double lift = needed * context->limits[LIFT];
    if (hold->locators < 2 && falls_short(sideways, needed))
        operation_report(context, CASE_SLIDES, operation, station, NULL, sideways, needed);
    else if (falls_short(hold->press, lift))
        operation_report(context, CASE_LIFTS, operation, station, NULL, hold->press, lift);
}

typedef struct Freed {
    bool free;   /* an operation so far has cut the part out of its blank */
    bool looked; /* some operation was looked at */
} Freed;

/* A bevel is cut on parts that are free already, wherever that was done. */
static void check_operation(RuleContext *context, const Record *operation, const Feature *station,
                            void *data)
{
    Freed *freed = data;
    const Operation *own = &operation->operation;
    freed->free = freed->free || operation_has_pass(own, PASS_OUTLINE_OUTSIDE) ||
                  operation_has_pass(own, PASS_BEVEL);
    if (!freed->free)
        return;
    Hold hold = {.operation = own, .by_force = greatest_force(own) > 0};
    each_fastener(context, station, count_fastener, &hold);
    freed->looked = true;
    if (hold.screws < context->limits[FASTENERS])
        operation_report(context, CASE_FEW_MEANWHILE, operation, station, NULL, hold.screws,
                         context->limits[FASTENERS]);
    else if (hold.by_force)
        check_force(context, operation, station, &hold);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Freed freed = {false, false};
    each_operation(context, a, check_operation, &freed);
    if (freed.looked)
        return;
    Hold hold = {.operation = NULL};
    each_fastener(context, a, count_fastener, &hold);
    if (hold.screws < context->limits[FASTENERS])
        rule_report(context, CASE_FEW, a, NULL, hold.screws, context->limits[FASTENERS]);
}

const Rule rule_comes_loose = {
    .slug = "comes-loose",
    .title = N_("Part comes loose when cut free"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
