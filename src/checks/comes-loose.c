/* comes-loose: once its profile is cut, a part is held by the fasteners through it alone: never by
 * fewer than two, and where the force of the cutter is known, by enough against it. The forces are
 * estimates. */
#include "checks/fastener.h"
#include "checks/hardware.h"
#include "checks/hole-steps.h"
#include "trade/holding.h"

enum { FASTENERS, FRICTION, FACTOR, LIFT, STRESS };

static const RuleLimit limits[] = {
    [FASTENERS] = {"fasteners", 2, VALUE_COUNT, "screws that must hold a part once it is cut free",
                   "common practice, no source"},
    [FRICTION] = {"friction", HOLDING_FRICTION, VALUE_COUNT, "friction of wet metal on metal",
                  "common practice, no source"},
    [FACTOR] = {"factor", HOLDING_FACTOR, VALUE_COUNT,
                "how many times the cutter's force the screws must hold",
                "common practice, no source"},
    [LIFT] = {"lift", 0.58, VALUE_COUNT, "share of a cutter's force that lifts the part",
              "common practice: the tangent of a helix of 30 degrees, no source"},
    [STRESS] = {"stress", 200, VALUE_COUNT, "what a screw is tightened to, N/mm2",
                "common practice, no source"},
};

enum { CASE_FEW, CASE_SLIDES, CASE_LIFTS };

static const RuleCase cases[] = {
    [CASE_FEW] = {LEVEL_STOP, VALUE_COUNT,
                  "once its profile is cut the part of {a} has {value} of the {limit} screws that "
                  "must hold it",
                  "add hold-downs or shoulder screws through the part's holes"},
    [CASE_SLIDES] = {LEVEL_CAUTION, VALUE_COUNT,
                     "once its profile is cut the screws hold the part of {a} against {value} N "
                     "sideways, and {limit} N are needed (an estimate)",
                     "add a second locator or more hold-downs, or cut with less force"},
    [CASE_LIFTS] = {LEVEL_CAUTION, VALUE_COUNT,
                    "once its profile is cut the screws press the part of {a} down with {value} N, "
                    "and {limit} N are needed against the cutter's lift (an estimate)",
                    "add hold-downs, shorten the shoulders so that their heads press, or cut with "
                    "less force"},
};

typedef struct Hold {
    bool by_force;        /* some pass says how hard it pushes: then `press` is worked out */
    int screws, locators; /* through the part's holes */
    double press;         /* N, of the screws whose heads press on the part */
} Hold;

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
    if (fitting->part_hole <= 0)
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

typedef struct Force {
    FeatureId station, operation;
    double newtons;
} Force;

static double greatest_force(const Operation *operation)
{
    int64_t greatest = 0;
    for (uint32_t i = 0; i < operation->passes.count; i++) {
        const Pass *pass = LIST_AT(&operation->passes, Pass, i);
        if (pass->where == PASS_OUTLINE_OUTSIDE)
            greatest = MAX(greatest, pass->force);
    }
    return (double)greatest / 1e6;
}

/* The hardest pass round the station's profile; of equals that of the lower number. */
static bool find_force(const Record *record, void *data)
{
    Force *force = data;
    const Operation *operation = &record->operation;
    double newtons = greatest_force(operation);
    bool harder =
        newtons > force->newtons || (newtons == force->newtons && record->id < force->operation);
    for (uint32_t i = 0; i < operation->stations.count && newtons > 0 && harder; i++) {
        if (*LIST_AT(&operation->stations, FeatureId, i) == force->station) {
            force->newtons = newtons;
            force->operation = record->id;
        }
    }
    return true;
}

static void report_force(RuleContext *context, int which, const Feature *station,
                         const Force *force, double value, double limit)
{
    Finding *finding = rule_report(context, which, station, NULL, value, limit);
    finding->operation = force->operation;
}

/* Two locators hold the part sideways whatever its screws do, and nothing but the screws' heads
 * holds it down. Friction acts under the part and under the heads. */
static void check_force(RuleContext *context, const Feature *station, const Hold *hold)
{
    Force force = {.station = station->id};
    placed_each_record(context->placed, RECORD_OPERATION, find_force, &force);
    if (force.newtons <= 0)
        return;
    double sideways = friction_hold(hold->press, context->limits[FRICTION], 2);
    double needed = context->limits[FACTOR] * force.newtons;
    double lift = needed * context->limits[LIFT];
    if (hold->locators < 2 && falls_short(sideways, needed))
        report_force(context, CASE_SLIDES, station, &force, sideways, needed);
    else if (falls_short(hold->press, lift))
        report_force(context, CASE_LIFTS, station, &force, hold->press, lift);
}

typedef struct Stations {
    RuleContext *context;
    bool by_force;
} Stations;

static bool check_station(const Feature *feature, void *data)
{
    const Stations *stations = data;
    RuleContext *context = stations->context;
    if (feature->kind != FEATURE_PART)
        return true;
    Hold hold = {.by_force = stations->by_force};
    each_fastener(context, feature, count_fastener, &hold);
    if (hold.screws < context->limits[FASTENERS])
        rule_report(context, CASE_FEW, feature, NULL, hold.screws, context->limits[FASTENERS]);
    else if (hold.by_force)
        check_force(context, feature, &hold);
    return true;
}

static bool any_force(const Record *record, void *data)
{
    bool *any = data;
    *any = *any || greatest_force(&record->operation) > 0;
    return !*any;
}

/* The passes of any operation matter, so all stations are looked at after any change. */
static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Stations stations = {.context = context};
    placed_each_record(context->placed, RECORD_OPERATION, any_force, &stations.by_force);
    placed_each(context->placed, check_station, &stations);
}

const Rule rule_comes_loose = {
    .slug = "comes-loose",
    .title = "Part comes loose when cut free",
    .scope = SCOPE_PLATE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
