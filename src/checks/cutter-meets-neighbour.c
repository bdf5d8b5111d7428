/* cutter-meets-neighbour: the cutter of a pass against the parts and blanks on other stations. */
#include "checks/alternatives.h"
#include "checks/passes.h"

enum { ROOM };

static const RuleLimit limits[] = {
    [ROOM] = {"room", 0.5, VALUE_LENGTH,
              N_("room between a cutter and the part of another station"),
              N_("common practice, no source")},
};

enum { CASE_PART, CASE_NEAR, CASE_BLANK };

static const RuleCase cases[] = {
    [CASE_PART] = {LEVEL_STOP, VALUE_LENGTH,
                   N_("at {operation} the cutter at the part of {a} cuts into the part of {b} by "
                      "{over} or more"),
                   N_("move the stations apart, or use a smaller cutter")},
    [CASE_NEAR] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("at {operation} the cutter at the part of {a} passes {value} from the part of "
            "{b}; at least {limit} is wanted"),
         N_("move the stations {less} further apart, or use a smaller cutter")},
    [CASE_BLANK] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("at {operation} the cutter at the part of {a} cuts into the blank of {b} by "
            "{over} or more"),
         N_("move the stations apart, make the blanks smaller, or use a smaller cutter")},
};

static Reach reach(const Placed *placed, const double *values)
{
    return reach_of_sweeps(placed, values[ROOM]);
}

typedef struct Neighbour {
    const Feature *feature;
    Feature blank;
} Neighbour;

/* True where an operation before this one has cut the neighbour out of its blank. */
static bool is_cut_out(const Placed *placed, const Feature *station, const Record *before)
{
    uint32_t count;
    const FeatureId *running = placed_running(placed, &count);
    for (uint32_t i = 0; i < count && running[i] != before->id; i++) {
        const Operation *operation = &placed_record(placed, running[i])->operation;
        if (operation_runs(operation, station->id, station->face) &&
            operation_has_pass(operation, PASS_OUTLINE_OUTSIDE))
            return true;
    }
    return false;
}

static void report(RuleContext *context, int which, const Record *operation, const Feature *station,
                   const Neighbour *neighbour, const SweepGap *gap, double limit)
{
    Finding *finding = operation_report(context, which, operation, station, neighbour->feature,
                                        gap->distance, limit);
    rule_report_between(finding, gap->on_a, gap->on_b);
}

static void check_operation(RuleContext *context, const Record *operation, const Feature *station,
                            void *data)
{
    const Neighbour *neighbour = data;
    double room = context->limits[ROOM];
    SweepGap gap;
    bool near = operation_gap(context->placed, operation, station, SWEEPER_CUTTER,
                              neighbour->feature, room, &gap);
    if (near && falls_short(gap.distance, 0))
        report(context, CASE_PART, operation, station, neighbour, &gap, 0);
    else if (near && falls_short(gap.distance, room))
        report(context, CASE_NEAR, operation, station, neighbour, &gap, room);
    else if (neighbour->feature->has_blank &&
             !is_cut_out(context->placed, neighbour->feature, operation) &&
             operation_gap(context->placed, operation, station, SWEEPER_CUTTER, &neighbour->blank,
                           0, &gap) &&
             falls_short(gap.distance, 0))
        report(context, CASE_BLANK, operation, station, neighbour, &gap, 0);
}

static void check_against(RuleContext *context, const Feature *station, const Feature *other)
{
    Neighbour neighbour = {.feature = other, .blank = placed_seated_blank(context->placed, other)};
    each_operation(context, station, check_operation, &neighbour);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    if (stations_are_alternatives(context->placed, a->id, b->id))
        return;
    check_against(context, a, b);
    check_against(context, b, a);
}

const Rule rule_cutter_meets_neighbour = {
    .slug = "cutter-meets-neighbour",
    .title = N_("Cutter runs into another part"),
    .scope = SCOPE_PAIR,
    .kinds = FEATURE_PART,
    .other_kinds = FEATURE_PART,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .reach_anywhere = reach,
    .check = check,
};
