/* reach: a cutter whose flutes are shorter than it cuts deep, or that stands too little out of its
 * holder to get there. */
#include "checks/passes.h"

enum { ROOM };

static const RuleLimit limits[] = {
    [ROOM] = {"room", 1, VALUE_LENGTH, N_("room between a holder and the work below it"),
              N_("common practice, no source")},
};

enum { CASE_FLUTES, CASE_HOLDER };

static const RuleCase cases[] = {
    [CASE_FLUTES] = {LEVEL_CAUTION, VALUE_LENGTH,
                     N_("at {operation} the cutter at the part of {a} goes {limit} deep, and its "
                        "flutes are {value} long"),
                     N_("use a cutter with longer flutes, a thinner blank, or go less deep")},
    [CASE_HOLDER] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("at {operation} the cutter at the part of {a} must stand {limit} out of its "
            "holder, and stands {value}"),
         N_("let it stand {less} further out, or use a longer one")},
};

typedef struct Work {
    double top;     /* of the blank at its thickest, over the face */
    double highest; /* of that and of the plate beside it */
} Work;

typedef struct Worst {
    const Work *work;
    const Pass *pass;
    double room;
    double flutes, flutes_needed, stands, must_stand; /* the cutters that fall shortest */
} Worst;

static void keep_shorter(double value, double needed, double *kept, double *kept_needed)
{
    if (value > 0 && falls_short(value, needed) && needed - value > *kept_needed - *kept) {
        *kept = value;
        *kept_needed = needed;
    }
}

static bool measure(const Sweep *sweep, void *data)
{
    Worst *worst = data;
    double flutes = length_to_mm(worst->pass->flute_length);
    double gauge = length_to_mm(worst->pass->gauge_length);
    keep_shorter(flutes, worst->work->top - sweep->tip, &worst->flutes, &worst->flutes_needed);
    keep_shorter(gauge, worst->work->highest - sweep->tip + worst->room, &worst->stands,
                 &worst->must_stand);
    return true;
}

/* A bevel's cutter works at its end alone, above all that is beside it. */
static void check_operation(RuleContext *context, const Record *operation, const Feature *station,
                            void *data)
{
    const List *passes = &operation->operation.passes;
    Worst worst = {.work = data, .room = context->limits[ROOM]};
    for (uint32_t i = 0; i < passes->count; i++) {
        worst.pass = LIST_AT(passes, Pass, i);
        if (worst.pass->where != PASS_BEVEL)
            sweeps_each(context->placed, station, worst.pass, measure, &worst);
    }
    if (worst.flutes > 0)
        operation_report(context, CASE_FLUTES, operation, station, NULL, worst.flutes,
                         worst.flutes_needed);
    if (worst.stands > 0)
        operation_report(context, CASE_HOLDER, operation, station, NULL, worst.stands,
                         worst.must_stand);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Record *part = placed_part(context->placed, a->id);
    if (!part)
        return;
    Work work = {.top = placed_seated_blank(context->placed, a).top +
                        length_to_mm(part->part.thickness_tolerance)};
    work.highest = fmax(work.top, 0);
    each_operation(context, a, check_operation, &work);
}

const Rule rule_reach = {
    .slug = "reach",
    .title = N_("Cutter does not reach"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
