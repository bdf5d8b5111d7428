/* spoils-locator: what drills or reams the part's holes keeps out of the plate's own locating holes
 * below them. */
#include "checks/fastener.h"
#include "checks/hole-steps.h"
#include "checks/passes.h"

enum { CLEAR };

static const RuleLimit limits[] = {
    [CLEAR] = {"clear", 0.1, VALUE_LENGTH,
               N_("room between a drill and the walls of a locating hole it enters, a side"),
               N_("common practice, no source")},
};

enum { CASE_CUTS, CASE_RUBS };

static const RuleCase cases[] = {
    [CASE_CUTS] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("the cutter that makes the part's hole over {a} cuts {value} into the plate's "
            "own hole"),
         N_("counterbore the plate's hole wider than the cutter and as deep as it comes "
            "out, drill less deep, or drill the parts elsewhere")},
    [CASE_RUBS] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("the cutter that makes the part's hole over {a} enters the plate's own hole with "
            "{value} to spare a side; {limit} keeps it off the walls"),
         N_("counterbore the plate's hole wider where the cutter comes out")},
};

/* The cutter below what the part lies on: its full width down to `full`, then its point. All mm
 * below the face. */
typedef struct Entering {
    double diameter, full, point;
    double cuts, spare; /* the worst so far: how far it cuts in, and the least room beside it */
} Entering;

/* Of a place where the hole begins to be as wide as `width`. */
static void enter(Entering *entering, double from, double width)
{
    double tip = entering->full + entering->point;
    if (tip - from <= 1e-9)
        return;
    double in = entering->full + entering->point * (1 - width / entering->diameter) - from;
    if (width < entering->diameter)
        entering->cuts = fmax(entering->cuts, in);
    else if (entering->full - from > 1e-9)
        entering->spare = fmin(entering->spare, (width - entering->diameter) / 2);
}

static double widest_below(const Fastener *fastener, double depth)
{
    double width = 0;
    for (uint32_t i = 0; i < fastener->hole->steps.count; i++) {
        const Step *step = LIST_AT(&fastener->hole->steps, Step, i);
        width =
            fmax(width, step_width_at(step, fastener->frame, fastener_at(fastener), depth + 1e-9));
    }
    return width;
}

/* The hole gets narrower where the seat is and below each of its steps. */
static Entering enter_hole(const Fastener *fastener, const Pass *pass)
{
    double diameter = length_to_mm(pass->cutter_diameter), point = 0;
    if (pass->point > 0)
        point = diameter / 2 / tan(angle_to_degrees(pass->point) / 2 * (M_PI / 180));
    Entering entering = {.diameter = diameter,
                         .full = fastener->seat + length_to_mm(pass->depth_below),
                         .point = point,
                         .spare = INFINITY};
    enter(&entering, fastener->seat, widest_below(fastener, fastener->seat));
    for (uint32_t i = 0; i < fastener->hole->steps.count; i++) {
        const Step *step = LIST_AT(&fastener->hole->steps, Step, i);
        double end = step_depth(step, fastener->frame, fastener_at(fastener));
        if (end > fastener->seat && !step->through)
            enter(&entering, end, widest_below(fastener, end));
    }
    return entering;
}

static bool goes_down(const Fastener *fastener, const Pass *pass)
{
    int32_t number = fastener->fitting->part_hole;
    if (pass->where != PASS_HOLES || pass->cutter_diameter <= 0 || !fastener->part || number <= 0 ||
        number > (int32_t)fastener->part->holes.count)
        return false;
    const PartHole *hole = LIST_AT(&fastener->part->holes, PartHole, number - 1);
    return pass->cutter_diameter <= hole->diameter + hole->upper;
}

static void check_one(RuleContext *context, const Fastener *fastener, void *data)
{
    const Record *operation = data;
    Entering worst = {.spare = INFINITY};
    if (!fitting_locates(fastener->fitting))
        return;
    for (uint32_t i = 0; i < operation->operation.passes.count; i++) {
        const Pass *pass = LIST_AT(&operation->operation.passes, Pass, i);
        if (!goes_down(fastener, pass))
            continue;
        Entering entering = enter_hole(fastener, pass);
        worst.cuts = fmax(worst.cuts, entering.cuts);
        worst.spare = fmin(worst.spare, entering.spare);
    }
    double limit = context->limits[CLEAR];
    if (falls_short(0, worst.cuts))
        operation_report(context, CASE_CUTS, operation, fastener->feature, fastener->station,
                         worst.cuts, 0);
    else if (falls_short(worst.spare, limit))
        operation_report(context, CASE_RUBS, operation, fastener->feature, fastener->station,
                         worst.spare, limit);
}

static void check_operation(RuleContext *context, const Record *operation, const Feature *station,
                            void *data)
{
    each_fastener(context, station, check_one, (void *)(uintptr_t)operation);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_operation(context, a, check_operation, NULL);
}

const Rule rule_spoils_locator = {
    .slug = "spoils-locator",
    .title = N_("Drill into a locating hole"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
