#include "refit/hole-use.h"

#include "trade/clearance.h"

#include <string.h>

HoleUse hole_use(const Hole *hole)
{
    HoleUse use = {.thread = NULL};
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        if (step->kind == STEP_TAP && step->thread)
            use.thread = thread_find(step->thread, NULL);
        if (step->kind == STEP_REAM || step->kind == STEP_BORE)
            use.reamed = step->diameter;
    }
    return use;
}

/* A screw can be taken out and another put in: the thread says what. A pin stays. */
void hole_use_fitting(HoleUse *use, const Fitting *fitting)
{
    if (use->thread || fitting->kind == FITTING_EDGE_CLAMP || fitting->diameter <= 0)
        return;
    use->pin_kind = fitting->kind;
    use->pin = fitting->diameter;
    use->pin_upper = fitting->upper;
    use->pin_lower = fitting->lower;
}

bool hole_use_equal(const HoleUse *a, const HoleUse *b)
{
    return a->thread == b->thread && a->reamed == b->reamed && a->pin_kind == b->pin_kind &&
           a->pin == b->pin && a->pin_upper == b->pin_upper && a->pin_lower == b->pin_lower;
}

bool hole_use_any(const HoleUse *use)
{
    return use->thread || use->reamed > 0 || use->pin > 0;
}

/* --- locating ------------------------------------------------------------------------------- */

/* Of several the largest. */
static void offer_locator(HoleOption *option, const Hardware *hardware, const PartHole *hole,
                          double clearance)
{
    double least = hardware_clearance_least(hardware, hole);
    double greatest = hardware_clearance_greatest(hardware, hole);
    if (least < 0 || least > clearance || (option->serves && option->play <= greatest / 2))
        return;
    *option = (HoleOption){true, greatest / 2, least / 2, *hardware};
}

static void offer_shoulders(const HoleUse *use, const PartHole *hole, double clearance,
                            HoleOption *option)
{
    for (size_t i = 0; use->thread && i < shoulder_screw_count(); i++) {
        const ShoulderScrew *screw = shoulder_screw_at(i);
        /* Few are the hole's size, and finding a thread by its name takes long. */
        double least = length_to_mm(hole->diameter + hole->lower - screw->shoulder_greatest);
        if (least < 0 || least > clearance || thread_find(screw->thread, NULL) != use->thread)
            continue;
        Hardware hardware = hardware_of_shoulder(screw, use->thread);
        offer_locator(option, &hardware, hole, clearance);
    }
}

static void offer_dowels(const HoleUse *use, const PartHole *hole, double clearance,
                         HoleOption *option)
{
    for (size_t i = 0; use->reamed > 0 && i < dowel_count(); i++) {
        const Dowel *dowel = dowel_at(i);
        if (dowel->nominal != use->reamed || dowel->land)
            continue;
        Hardware hardware = hardware_of_dowel(dowel);
        offer_locator(option, &hardware, hole, clearance);
    }
}

static Hardware standing(const HoleUse *use)
{
    return (Hardware){.kind = use->pin_kind,
                      .diameter = use->pin,
                      .upper = use->pin_upper,
                      .lower = use->pin_lower};
}

/* --- holding -------------------------------------------------------------------------------- */

/* The thread's own socket-head screw, where the part's hole is a clearance hole for it: from the
 * close to the loose one, so that the head bears all round. */
static void offer_hold_down(const HoleUse *use, const PartHole *hole, HoleOption *option)
{
    const Screw *screw = use->thread ? screw_of(SCREW_SOCKET_HEAD, use->thread->size, NULL) : NULL;
    const Clearance *clearance = screw ? clearance_find(screw->size, NULL) : NULL;
    Length room = hole->diameter + hole->lower;
    if (!clearance || clearance->close > room || clearance->loose < room)
        return;
    double play = length_to_mm(room - screw->major) / 2;
    *option = (HoleOption){true, play, play, hardware_of_screw(screw, use->thread)};
}

HoleOptions hole_options(const HoleUse *use, const PartHole *part_hole, double clearance)
{
    HoleOptions options = {.locate = {.serves = false}};
    Hardware pin = standing(use);
    bool pinned = use->pin > 0;
    if (pinned && (pin.kind == FITTING_DOWEL || pin.kind == FITTING_RELIEVED_PIN ||
                   pin.kind == FITTING_SHOULDER_SCREW))
        offer_locator(&options.locate, &pin, part_hole, clearance);
    if (!pinned) {
        offer_shoulders(use, part_hole, clearance, &options.locate);
        offer_dowels(use, part_hole, clearance, &options.locate);
        offer_hold_down(use, part_hole, &options.hold);
    }
    if (pinned && pin.kind == FITTING_HOLD_DOWN) {
        double play = hardware_clearance_least(&pin, part_hole) / 2;
        options.hold = (HoleOption){play >= 0, play, play, pin};
    }
    return options;
}
