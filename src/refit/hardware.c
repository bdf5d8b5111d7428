#include "refit/hardware.h"

#include "refit/hole-use.h"
#include "trade/clearance.h"
#include "trade/drill.h"

#include <string.h>

static Length smallest_hole(const PartHole *hole)
{
    return hole->diameter + hole->lower;
}

double hardware_clearance_least(const Hardware *hardware, const PartHole *hole)
{
    return length_to_mm(smallest_hole(hole) - hardware->diameter - hardware->upper);
}

double hardware_clearance_greatest(const Hardware *hardware, const PartHole *hole)
{
    return length_to_mm(hole->diameter + hole->upper - hardware->diameter - hardware->lower);
}

/* --- from the trade's tables ---------------------------------------------------------------- */

Hardware hardware_of_shoulder(const ShoulderScrew *screw, const Thread *thread)
{
    Hardware hardware = {.kind = FITTING_SHOULDER_SCREW,
                         .diameter = screw->nominal,
                         .upper = screw->shoulder_greatest - screw->nominal,
                         .lower = screw->shoulder_least - screw->nominal,
                         .head_diameter = screw->head_diameter,
                         .head_height = screw->head_height,
                         .thread = thread,
                         .thread_depth = screw->thread_length + LENGTH_MM};
    g_snprintf(hardware.size, sizeof hardware.size, "shoulder screw %s", screw->name);
    return hardware;
}

Hardware hardware_of_dowel(const Dowel *dowel)
{
    Hardware hardware = {.kind = dowel->land ? FITTING_RELIEVED_PIN : FITTING_DOWEL,
                         .diameter = dowel->nominal,
                         .upper = dowel->greatest - dowel->nominal,
                         .lower = dowel->least - dowel->nominal,
                         .hole_nominal = dowel->nominal,
                         .hole_greatest = dowel->hole_greatest,
                         .hole_least = dowel->hole_least};
    g_snprintf(hardware.size, sizeof hardware.size, "dowel %s", dowel->name);
    return hardware;
}

Hardware hardware_of_screw(const Screw *screw, const Thread *thread)
{
    Hardware hardware = {.kind = FITTING_HOLD_DOWN,
                         .diameter = screw->major,
                         .head_diameter = screw->head_diameter,
                         .head_height = screw->head_height,
                         .thread = thread,
                         .thread_depth = 2 * thread->major};
    g_strlcpy(hardware.size, screw->name, sizeof hardware.size);
    return hardware;
}

/* --- choosing ------------------------------------------------------------------------------- */

static const ShoulderScrew *fitting_shoulder(const PartHole *hole)
{
    const ShoulderScrew *best = NULL;
    Length room = smallest_hole(hole);
    for (size_t i = 0; i < shoulder_screw_count(); i++) {
        const ShoulderScrew *screw = shoulder_screw_at(i);
        bool goes_in = screw->shoulder_greatest <= room;
        bool close = room - screw->shoulder_greatest <= LOCATOR_CLEARANCE_MOST;
        if (goes_in && close && (!best || screw->shoulder_greatest > best->shoulder_greatest))
            best = screw;
    }
    return best;
}

static const Dowel *fitting_dowel(const PartHole *hole)
{
    const Dowel *best = NULL;
    Length room = smallest_hole(hole);
    for (size_t i = 0; i < dowel_count(); i++) {
        const Dowel *dowel = dowel_at(i);
        if (dowel->land == 0 && dowel->greatest <= room &&
            (!best || dowel->greatest > best->greatest))
            best = dowel;
    }
    return best;
}

static Hardware plain_pin(const PartHole *hole)
{
    Length nominal = smallest_hole(hole) - LENGTH_MM / 100;
    return (Hardware){.kind = FITTING_DOWEL,
                      .diameter = nominal,
                      .hole_nominal = nominal,
                      .hole_greatest = nominal,
                      .hole_least = nominal};
}

Hardware hardware_for_locating(const PartHole *hole)
{
    const ShoulderScrew *screw = fitting_shoulder(hole);
    const Thread *thread = screw ? thread_find(screw->thread, NULL) : NULL;
    if (thread)
        return hardware_of_shoulder(screw, thread);
    const Dowel *dowel = fitting_dowel(hole);
    return dowel ? hardware_of_dowel(dowel) : plain_pin(hole);
}

static const Thread *coarse_thread(const char *size)
{
    for (size_t i = 0; i < thread_count(); i++) {
        const Thread *thread = thread_at(i);
        if (strcmp(thread->size, size) == 0 &&
            (thread->series == THREAD_UNC || thread->series == THREAD_COARSE))
            return thread;
    }
    return NULL;
}

bool hardware_for_holding(const PartHole *hole, bool metric, Hardware *hardware)
{
    const Screw *best = NULL;
    for (size_t i = 0; i < screw_count(); i++) {
        const Screw *screw = screw_at(i);
        const Clearance *clearance = clearance_find(screw->size, NULL);
        if (screw->kind == SCREW_SOCKET_HEAD && clearance && (*screw->size == 'M') == metric &&
            clearance->close <= smallest_hole(hole) && (!best || screw->major > best->major))
            best = screw;
    }
    const Thread *thread = best ? coarse_thread(best->size) : NULL;
    if (thread)
        *hardware = hardware_of_screw(best, thread);
    return thread != NULL;
}

/* --- what it stands in ---------------------------------------------------------------------- */

static Step *add_step(Hole *hole, StepKind kind, Length diameter, bool through, Length depth)
{
    Step *step = list_append(&hole->steps, Step);
    step->kind = kind;
    step->diameter = diameter;
    step->through = through;
    step->depth = through ? 0 : depth;
    return step;
}

/* Drilled through for the tap, so that chips fall out, and tapped as deep as the screw can reach.
 */
static void thread_hole(Hole *hole, const Thread *thread, Length depth)
{
    const Drill *drill = thread->tap_drill ? drill_find(thread->tap_drill, NULL) : NULL;
    Length drilled = drill ? drill->diameter : length_from_mm(thread_hole_for_cut(thread, 75));
    add_step(hole, STEP_DRILL, drilled, true, 0);
    Step *tap = add_step(hole, STEP_TAP, thread->major, false, depth);
    tap->thread = g_strdup(thread->name);
}

static void ream_hole(Hole *hole, Length nominal, Length greatest, Length least)
{
    const Drill *drill = drill_at_or_below(nominal - LENGTH_MM / 5, DRILL_SET_ALL);
    add_step(hole, STEP_DRILL, drill ? drill->diameter : nominal - LENGTH_MM / 5, true, 0);
    Step *ream = add_step(hole, STEP_REAM, nominal, true, 0);
    ream->upper = greatest - nominal;
    ream->lower = least - nominal;
}

void hardware_make_steps(const Hardware *hardware, Hole *hole)
{
    if (hardware->thread)
        thread_hole(hole, hardware->thread, hardware->thread_depth);
    else
        ream_hole(hole, hardware->hole_nominal, hardware->hole_greatest, hardware->hole_least);
}

void hardware_make_fitting(const Hardware *hardware, Length part_thickness, Fitting *fitting)
{
    fitting->kind = hardware->kind;
    fitting->size = *hardware->size ? g_strdup(hardware->size) : NULL;
    fitting->diameter = hardware->diameter;
    fitting->upper = hardware->upper;
    fitting->lower = hardware->lower;
    fitting->length = part_thickness;
    fitting->head_diameter = hardware->head_diameter;
    fitting->head_height = hardware->head_height;
}
