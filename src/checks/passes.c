#include "checks/passes.h"

void each_operation(RuleContext *context, const Feature *station, OperationCheck check, void *data)
{
    uint32_t count;
    const FeatureId *running = placed_running(context->placed, &count);
    for (uint32_t i = 0; i < count; i++) {
        const Record *operation = placed_record(context->placed, running[i]);
        if (operation_runs(&operation->operation, station->id, station->face))
            check(context, operation, station, data);
    }
}

bool stands_at(const Placed *placed, const Record *operation, const Feature *feature)
{
    return feature->kind == FEATURE_KEEP_CLEAR ||
           (feature->kind == FEATURE_FITTING &&
            operation_has_fitted(&operation->operation, feature->id));
}

typedef struct Search {
    const Placed *placed;
    const Feature *station, *other;
    const Pass *pass;
    Sweeper sweeper;
    double limit;
    bool found;
    SweepGap *gap;
} Search;

static Point on_station(const Search *search, const Sweep *sweep, Point p)
{
    const Frame *frame = placed_frame(search->placed, search->station->face);
    return sweep->face == ID_NONE ? frame_from_space(frame, (Space){p.x, p.y, sweep->bottom}, NULL)
                                  : p;
}

static bool measure(const Sweep *cutter, void *data)
{
    Search *search = data;
    Sweep holder;
    const Sweep *sweep = cutter;
    SweepGap gap;
    if (search->sweeper == SWEEPER_HOLDER) {
        if (!sweep_holder(cutter, search->pass, &holder))
            return false;
        sweep = &holder;
    }
    if (!sweep_gap_within(search->placed, sweep, search->other, search->limit, &gap) ||
        (search->found && gap.distance >= search->gap->distance))
        return true;
    *search->gap = (SweepGap){gap.distance, on_station(search, sweep, gap.on_a),
                              on_station(search, sweep, gap.on_b)};
    search->found = true;
    return true;
}

bool operation_gap(const Placed *placed, const Record *operation, const Feature *station,
                   Sweeper sweeper, const Feature *other, double limit, SweepGap *gap)
{
    const List *passes = &operation->operation.passes;
    Search search = {placed, station, other, NULL, sweeper, limit, false, gap};
    for (uint32_t i = 0; i < passes->count; i++) {
        search.pass = LIST_AT(passes, Pass, i);
        sweeps_each(placed, station, search.pass, measure, &search);
    }
    return search.found;
}

Finding *operation_report(RuleContext *context, int which, const Record *operation,
                          const Feature *a, const Feature *b, double value, double limit)
{
    Finding *finding = rule_report(context, which, a, b, value, limit);
    finding->operation = operation->id;
    return finding;
}

typedef struct Check {
    const Feature *hardware;
    const HardwareRoom *room;
} Check;

static void check_operation(RuleContext *context, const Record *operation, const Feature *station,
                            void *data)
{
    const Check *check = data;
    const HardwareRoom *room = check->room;
    SweepGap gap;
    if (!stands_at(context->placed, operation, check->hardware) ||
        !operation_gap(context->placed, operation, station, room->sweeper, check->hardware,
                       room->limit, &gap) ||
        !falls_short(gap.distance, room->limit))
        return;
    bool meets = falls_short(gap.distance, 0);
    Finding *finding =
        operation_report(context, meets ? room->meets : room->near, operation, station,
                         check->hardware, gap.distance, meets ? 0 : room->limit);
    rule_report_between(finding, gap.on_a, gap.on_b);
}

void check_hardware_room(RuleContext *context, const Feature *station, const Feature *hardware,
                         const HardwareRoom *room)
{
    Check check = {hardware, room};
    each_operation(context, station, check_operation, &check);
}

Reach reach_of_sweeps(const Placed *placed, double room)
{
    Reach reach = sweeps_reach(placed);
    return (Reach){reach.beside + room, reach.away + room};
}
