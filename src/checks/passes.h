/* passes.h: what the rules about cutters share: a station's operations and passes, and how near
 * what they sweep comes to something. */
#pragma once

#include "checks/rule.h"
#include "placed/placed-seat.h"

/* Calls `check` for each running operation that works on the station, first to last. */
typedef void (*OperationCheck)(RuleContext *context, const Record *operation,
                               const Feature *station, void *data);
void each_operation(RuleContext *context, const Feature *station, OperationCheck check, void *data);

/* True for hardware that is fitted at the operation, and for a keep-clear, which always stands. */
bool stands_at(const Placed *placed, const Record *operation, const Feature *feature);

typedef enum Sweeper { SWEEPER_CUTTER, SWEEPER_HOLDER } Sweeper;

/* The least gap of any pass of the operation at the station to a feature with its heights where it
 * stands; false when it is more than `limit`. The places are on the station's face. */
bool operation_gap(const Placed *placed, const Record *operation, const Feature *station,
                   Sweeper sweeper, const Feature *other, double limit, SweepGap *gap);

/* rule_report at an operation. */
Finding *operation_report(RuleContext *context, int which, const Record *operation,
                          const Feature *a, const Feature *b, double value, double limit);

/* The whole of cutter-meets-hardware and of holder-meets-clamp: at each operation of the station
 * reports `meets` where they touch, else `near` where the gap is less than the limit. */
typedef struct HardwareRoom {
    Sweeper sweeper;
    int meets, near;
    double limit;
} HardwareRoom;

void check_hardware_room(RuleContext *context, const Feature *station, const Feature *hardware,
                         const HardwareRoom *room);

/* What the rules of pairs about sweeps look as far as: sweeps_reach and their own room. */
Reach reach_of_sweeps(const Placed *placed, double room);
