#include "checks/fastener.h"

#include "checks/hardware.h"
#include "checks/hole-steps.h"
#include "placed/placed-seat.h"

typedef struct Each {
    RuleContext *context;
    const Feature *station;
    const Part *part;
    double seat;
    FastenerCheck check;
    void *data;
} Each;

static void look_at(const Each *each, const Feature *feature)
{
    const Placed *placed = each->context->placed;
    const Fitting *fitting = &placed_record(placed, feature->id)->fitting;
    const Record *hole = fitting->hole ? placed_record(placed, fitting->hole) : NULL;
    if (fitting->kind == FITTING_EDGE_CLAMP || !hole || hole->kind != RECORD_HOLE)
        return;
    Fastener fastener = {
        feature,    each->station, fitting, &hole->hole, placed_frame(placed, hole->hole.face),
        each->part, each->seat};
    if (fastener.frame)
        each->check(each->context, &fastener, each->data);
}

static bool visit(const Feature *feature, void *data)
{
    if (feature->kind == FEATURE_FITTING)
        look_at(data, feature);
    return true;
}

static const Part *part_of(const Placed *placed, const Feature *station)
{
    const Record *record = placed_record(placed, station->id);
    const Record *part = record ? placed_record(placed, record->station.part) : NULL;
    return part && part->kind == RECORD_PART ? &part->part : NULL;
}

void each_fastener(RuleContext *context, const Feature *a, FastenerCheck check, void *data)
{
    Each each = {.context = context, .check = check, .data = data};
    if (a->kind == FEATURE_PART) {
        each.station = a;
        each.part = part_of(context->placed, a);
        each.seat = placed_seat(context->placed, a->id);
        placed_each_on(context->placed, a->id, visit, &each);
    } else if (!a->station) {
        look_at(&each, a);
    }
}

Finding *fastener_report(RuleContext *context, int which, const Fastener *fastener, double value,
                         double limit)
{
    return rule_report(context, which, fastener->feature, fastener->station, value, limit);
}

double fastener_shoulder_end(const Fastener *fastener)
{
    double greatest, least, end = fastener->seat;
    hardware_pin_limits(fastener->fitting, &greatest, &least);
    for (uint32_t i = 0; i < fastener->hole->steps.count; i++) {
        const Step *step = LIST_AT(&fastener->hole->steps, Step, i);
        bool cone = step->kind == STEP_SPOT || step->kind == STEP_COUNTERSINK;
        if (cone || step->kind == STEP_TAP ||
            falls_short(length_to_mm(step->diameter + step->upper), least))
            continue;
        if (step->through)
            return INFINITY;
        end = fmax(end, step_depth(step, fastener->frame, fastener_at(fastener)));
    }
    return end;
}

Length fastener_whole_length(const Placed *placed, const Fitting *fitting)
{
    const Record *hole = fitting->hole ? placed_record(placed, fitting->hole) : NULL;
    const Feature *at = hole ? placed_find(placed, hole->id) : NULL;
    const Frame *frame = at ? placed_frame(placed, at->face) : NULL;
    if (fitting->kind != FITTING_SHOULDER_SCREW || !frame || hole->kind != RECORD_HOLE)
        return fitting->length;
    double seat = fitting->station ? placed_seat(placed, fitting->station) : 0;
    Fastener fastener = {at, NULL, fitting, &hole->hole, frame, NULL, seat};
    double end = fastener_shoulder_end(&fastener);
    return isinf(end) ? fitting->length : fitting->length + length_from_mm(end - seat);
}
