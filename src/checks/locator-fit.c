/* locator-fit: the part's hole must go over its locator, and not shift on it too far; a pin must
 * hold in the plate's hole, and go into it. */
#include "checks/hardware.h"
#include "checks/locators.h"

#include "trade/fit.h"

enum { PLAY, PLATE_PLAY };

static const RuleLimit limits[] = {
    [PLAY] =
        {"play", 0.06, VALUE_LENGTH, N_("greatest clearance between a part's hole and its locator"),
         N_("common practice: an inch shoulder screw has 0.051 mm in a hole that just takes it, "
            "no source")},
    [PLATE_PLAY] = {"plate_play", 0.05, VALUE_LENGTH,
                    N_("greatest clearance between a pin and the plate's hole"),
                    N_("common practice, no source")},
};

enum { CASE_TIGHT, CASE_LOOSE, CASE_PIN_TIGHT, CASE_PIN_LOOSE, CASE_DRILLED };

static const RuleCase cases[] = {
    [CASE_TIGHT] = {LEVEL_STOP, VALUE_LENGTH,
                    N_("{a} can be {over} larger than the part's hole: the part will not go on"),
                    N_("choose a smaller locator, or open the part's hole")},
    [CASE_LOOSE] = {LEVEL_CAUTION, VALUE_LENGTH,
                    N_("the part can have {value} of play on {a}; {limit} is allowed"),
                    N_("choose a locator that fits closer")},
    [CASE_PIN_TIGHT] = {LEVEL_STOP, VALUE_LENGTH,
                        N_("{a} can be {over} larger than the plate's hole: it will not go in"),
                        N_("ream the plate's hole to the pin's own size")},
    [CASE_PIN_LOOSE] = {LEVEL_CAUTION, VALUE_LENGTH,
                        N_("{a} can have {value} of play in the plate's hole; {limit} is allowed"),
                        N_("ream the plate's hole to the pin's own size")},
    [CASE_DRILLED] =
        {LEVEL_CAUTION, VALUE_NONE,
         N_("{a} stands in a hole that is drilled, not reamed or bored: it will not be "
            "where it is drawn"),
         N_("drill the plate's hole under size and ream it")},
};

static const PartHole *part_hole_of(RuleContext *context, const Fitting *fitting)
{
    const Feature *station = placed_find(context->placed, fitting->station);
    const Part *part = station ? station_part(context->placed, station) : NULL;
    if (!part || fitting->part_hole < 1 || fitting->part_hole > (int32_t)part->holes.count)
        return NULL;
    return LIST_AT(&part->holes, PartHole, fitting->part_hole - 1);
}

static void check_in_part(RuleContext *context, const Feature *a, const Fitting *fitting)
{
    double least, greatest;
    const PartHole *hole = part_hole_of(context, fitting);
    if (!hole)
        return;
    locator_clearance(hole, fitting, &least, &greatest);
    if (falls_short(least, 0))
        rule_report(context, CASE_TIGHT, a, NULL, least, 0);
    else if (falls_short(context->limits[PLAY], greatest))
        rule_report(context, CASE_LOOSE, a, NULL, greatest, context->limits[PLAY]);
}

/* The reamed or bored step that is nearest to the pin in size. */
static const Step *finish_for(const Hole *hole, Length diameter)
{
    const Step *best = NULL;
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        bool finish = step->kind == STEP_REAM || step->kind == STEP_BORE;
        if (finish &&
            (!best || llabs(step->diameter - diameter) < llabs(best->diameter - diameter)))
            best = step;
    }
    return best;
}

/* How far a pin of the tables may be larger than the hole that its standard suggests, mm. */
static double standard_press(const Fitting *fitting)
{
    const Dowel *dowel = hardware_dowel(fitting);
    return dowel ? length_to_mm(MAX(0, dowel->greatest - dowel->hole_least)) : 0;
}

/* Only a pin whose limits are known says what its hole should be. */
static void check_in_plate(RuleContext *context, const Feature *a, const Fitting *fitting)
{
    Fit fit;
    double greatest, least, limit = context->limits[PLATE_PLAY];
    const Record *hole = placed_record(context->placed, fitting->hole);
    if (fitting->kind == FITTING_SHOULDER_SCREW || !hole || hole->kind != RECORD_HOLE ||
        !hardware_pin_limits(fitting, &greatest, &least))
        return;
    const Step *step = finish_for(&hole->hole, fitting->diameter);
    if (!step) {
        rule_report(context, CASE_DRILLED, a, NULL, 0, 0);
        return;
    }
    SizeLimits in_plate = {step->diameter + step->upper, step->diameter + step->lower};
    SizeLimits pin = {length_from_mm(greatest), length_from_mm(least)};
    fit_of_limits(fitting->diameter, in_plate, pin, &fit);
    double tightest = length_to_mm(fit.clearance_least);
    double loosest = length_to_mm(fit.clearance_greatest);
    if (fit.meaning == FIT_WILL_NOT_GO && falls_short(tightest, -standard_press(fitting)))
        rule_report(context, CASE_PIN_TIGHT, a, NULL, tightest, 0);
    else if (falls_short(limit, loosest))
        rule_report(context, CASE_PIN_LOOSE, a, NULL, loosest, limit);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Fitting *fitting = &placed_record(context->placed, a->id)->fitting;
    if (!fitting_locates(fitting))
        return;
    check_in_part(context, a, fitting);
    check_in_plate(context, a, fitting);
}

const Rule rule_locator_fit = {
    .slug = "locator-fit",
    .title = N_("Fit of part and locator"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_FITTING,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
