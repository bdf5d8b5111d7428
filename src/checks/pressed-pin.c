#include "checks/pressed-pin.h"

#include "checks/hardware.h"

/* The step that is nearest to the pin in diameter: what it stands in. */
static const Step *bore_of(const Hole *hole, double diameter)
{
    const Step *best = NULL;
    double nearest = INFINITY;
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        double off = fabs(length_to_mm(step->diameter) - diameter);
        bool bore = step->kind == STEP_REAM || step->kind == STEP_BORE || step->kind == STEP_DRILL;
        if (bore && off < nearest) {
            nearest = off;
            best = step;
        }
    }
    return best;
}

bool pressed_pin(const Placed *placed, const Feature *fitting, PressedPin *pin)
{
    const Record *record = placed_record(placed, fitting->id);
    if (!record || record->kind != RECORD_FITTING)
        return false;
    const Fitting *own = &record->fitting;
    bool dowel = own->kind == FITTING_DOWEL || own->kind == FITTING_RELIEVED_PIN;
    const Record *hole = dowel ? placed_record(placed, own->hole) : NULL;
    const Feature *feature = dowel ? placed_find(placed, own->hole) : NULL;
    if (!hole || hole->kind != RECORD_HOLE || !feature || own->diameter <= 0)
        return false;
    double greatest, least, diameter = length_to_mm(own->diameter);
    hardware_pin_limits(own, &greatest, &least);
    const Step *bore = bore_of(&hole->hole, diameter);
    if (!bore || falls_short(greatest, length_to_mm(bore->diameter + bore->lower)))
        return false;
    *pin = (PressedPin){feature, shape_circle(feature_at(feature), diameter), diameter};
    return true;
}

typedef struct Largest {
    const Placed *placed;
    Length diameter;
} Largest;

static bool visit_pin(const Feature *feature, void *data)
{
    Largest *largest = data;
    if (feature->kind != FEATURE_FITTING)
        return true;
    const Record *record = placed_record(largest->placed, feature->id);
    if (record &&
        (record->fitting.kind == FITTING_DOWEL || record->fitting.kind == FITTING_RELIEVED_PIN))
        largest->diameter = MAX(largest->diameter, record->fitting.diameter);
    return true;
}

double pressed_pin_largest(const Placed *placed)
{
    Largest largest = {placed, 0};
    placed_each(placed, visit_pin, &largest);
    return length_to_mm(largest.diameter);
}
