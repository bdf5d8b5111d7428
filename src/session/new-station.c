/* A new station: the part's own holes say which locators and hold-downs it gets. */
#include "session/new-things.h"

#include "plate/label.h"
#include "trade/clearance.h"
#include "trade/dowel.h"
#include "trade/drill.h"
#include "trade/screw.h"
#include "trade/shoulder-screw.h"
#include "trade/thread.h"

#include <math.h>
#include <string.h>

typedef struct NewStation {
    Session *session;
    Edit *edit;
    const Part *part;
    FeatureId face, station;
    Length part_thickness;
} NewStation;

/* --- choosing hardware
 * ---------------------------------------------------------------------------- */

static Length smallest_hole(const PartHole *hole)
{
    return hole->diameter + hole->lower;
}

/* A locator is the largest that always goes into the part's hole, and is not far smaller. */
static const ShoulderScrew *fitting_shoulder(const PartHole *hole)
{
    const ShoulderScrew *best = NULL;
    Length room = smallest_hole(hole);
    for (size_t i = 0; i < shoulder_screw_count(); i++) {
        const ShoulderScrew *screw = shoulder_screw_at(i);
        bool goes_in = screw->shoulder_greatest <= room;
        bool close = room - screw->shoulder_greatest <= LENGTH_MM / 4;
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

/* A shop that works in inches has inch screws, and the other way round. */
static bool is_metric(const char *size)
{
    return *size == 'M';
}

/* The largest socket-head screw whose close clearance hole is no larger than the part's hole. */
static const Screw *fitting_screw(const NewStation *new, const PartHole *hole)
{
    const Screw *best = NULL;
    bool metric = session_unit(new->session) == UNIT_MM;
    for (size_t i = 0; i < screw_count(); i++) {
        const Screw *screw = screw_at(i);
        const Clearance *clearance = clearance_find(screw->size, NULL);
        if (screw->kind == SCREW_SOCKET_HEAD && clearance && is_metric(screw->size) == metric &&
            clearance->close <= smallest_hole(hole) && (!best || screw->major > best->major))
            best = screw;
    }
    return best;
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

/* --- the plate's holes
 * ------------------------------------------------------------------------------ */

static Step *add_step(Hole *hole, StepKind kind, Length diameter, bool through, Length depth)
{
    Step *step = list_append(&hole->steps, Step);
    step->kind = kind;
    step->diameter = diameter;
    step->through = through;
    step->depth = through ? 0 : depth;
    step->point = kind == STEP_DRILL && !through ? 118 * ANGLE_DEGREE : 0;
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

static Record *hole_for(const NewStation *new, const PartHole *part_hole)
{
    Record *record = record_new(session_new_id(new->session), RECORD_HOLE);
    record->hole.face = new->face;
    record->hole.station = new->station;
    record->hole.at = part_hole->at;
    return record;
}

static Record *fitting_for(const NewStation *new, const Record *hole, int part_hole, int kind)
{
    Record *record = record_new(session_new_id(new->session), RECORD_FITTING);
    record->fitting.kind = kind;
    record->fitting.station = new->station;
    record->fitting.hole = hole->id;
    record->fitting.part_hole = part_hole;
    return record;
}

static void add_both(const NewStation *new, Record *hole, Record *fitting)
{
    char label[LABEL_TEXT];
    label_next(session_plate(new->session), new->edit, hole, label);
    hole->hole.label = g_strdup(label);
    edit_add(new->edit, NULL, hole);
    edit_add(new->edit, NULL, fitting);
}

static void add_shoulder(const NewStation *new, const PartHole *at, int number,
                         const ShoulderScrew *screw, const Thread *thread)
{
    Record *hole = hole_for(new, at);
    thread_hole(&hole->hole, thread, screw->thread_length + LENGTH_MM);
    Record *record = fitting_for(new, hole, number, FITTING_SHOULDER_SCREW);
    Fitting *fitting = &record->fitting;
    fitting->size = g_strdup_printf("shoulder screw %s", screw->name);
    fitting->diameter = screw->nominal;
    fitting->upper = screw->shoulder_greatest - screw->nominal;
    fitting->lower = screw->shoulder_least - screw->nominal;
    fitting->length = new->part_thickness;
    fitting->head_diameter = screw->head_diameter;
    fitting->head_height = screw->head_height;
    add_both(new, hole, record);
}

static void add_dowel(const NewStation *new, const PartHole *at, int number)
{
    const Dowel *dowel = fitting_dowel(at);
    Length nominal = dowel ? dowel->nominal : smallest_hole(at) - LENGTH_MM / 100;
    Record *hole = hole_for(new, at);
    ream_hole(&hole->hole, nominal, dowel ? dowel->hole_greatest : nominal,
              dowel ? dowel->hole_least : nominal);
    Record *record = fitting_for(new, hole, number, FITTING_DOWEL);
    Fitting *fitting = &record->fitting;
    fitting->size = dowel ? g_strdup_printf("dowel %s", dowel->name) : NULL;
    fitting->diameter = nominal;
    fitting->upper = dowel ? dowel->greatest - nominal : 0;
    fitting->lower = dowel ? dowel->least - nominal : 0;
    fitting->length = new->part_thickness;
    add_both(new, hole, record);
}

static void add_locator(const NewStation *new, int number)
{
    const PartHole *at = LIST_AT(&new->part->holes, PartHole, number - 1);
    const ShoulderScrew *screw = fitting_shoulder(at);
    const Thread *thread = screw ? thread_find(screw->thread, NULL) : NULL;
    if (thread)
        add_shoulder(new, at, number, screw, thread);
    else
        add_dowel(new, at, number);
}

static void add_hold_down(const NewStation *new, int number)
{
    const PartHole *at = LIST_AT(&new->part->holes, PartHole, number - 1);
    const Screw *screw = fitting_screw(new, at);
    const Thread *thread = screw ? coarse_thread(screw->size) : NULL;
    if (!thread)
        return;
    Record *hole = hole_for(new, at);
    thread_hole(&hole->hole, thread, 2 * thread->major);
    Record *record = fitting_for(new, hole, number, FITTING_HOLD_DOWN);
    Fitting *fitting = &record->fitting;
    fitting->size = g_strdup(screw->name);
    fitting->diameter = screw->major;
    fitting->length = new->part_thickness;
    fitting->head_diameter = screw->head_diameter;
    fitting->head_height = screw->head_height;
    add_both(new, hole, record);
}

/* --- the station
 * ------------------------------------------------------------------------------------- */

/* The two holes furthest apart fix the part best. Numbers from 1; 0 where there is none. */
static void furthest_holes(const Part *part, int *one, int *other)
{
    double furthest = -1;
    *one = part->holes.count ? 1 : 0;
    *other = 0;
    for (uint32_t i = 0; i < part->holes.count; i++) {
        for (uint32_t k = i + 1; k < part->holes.count; k++) {
            Place a = LIST_AT(&part->holes, PartHole, i)->at;
            Place b = LIST_AT(&part->holes, PartHole, k)->at;
            double distance = hypot((double)(a.x - b.x), (double)(a.y - b.y));
            if (distance > furthest) {
                furthest = distance;
                *one = (int)i + 1;
                *other = (int)k + 1;
            }
        }
    }
}

static const Record *part_record(Session *session, const Edit *edit, FeatureId part)
{
    for (uint32_t i = 0; i < edit->count; i++)
        if (edit->changes[i].id == part)
            return edit->changes[i].after;
    return plate_find_kind(session_plate(session), part, RECORD_PART);
}

static Place origin_for_middle(const Part *part, Place middle)
{
    Outline *outline = part_outline(part, NULL);
    Box box = outline ? outline_box(outline) : (Box){0, 0, 0, 0};
    outline_unref(outline);
    return (Place){middle.x - length_from_mm((box.x0 + box.x1) / 2),
                   middle.y - length_from_mm((box.y0 + box.y1) / 2)};
}

FeatureId new_station(Session *session, FeatureId face, Place at, FeatureId part, Edit *edit)
{
    char label[LABEL_TEXT];
    const Record *held = part_record(session, edit, part);
    if (!held)
        return ID_NONE;
    Record *record = record_new(session_new_id(session), RECORD_STATION);
    record->station.face = face;
    record->station.part = part;
    record->station.at = origin_for_middle(&held->part, at);
    label_next(session_plate(session), edit, record, label);
    record->station.label = g_strdup(label);
    edit_add(edit, NULL, record);
    edit_set_name(edit, "New station");
    NewStation new = {session, edit, &held->part, face, record->id, held->part.thickness};
    int one, other;
    furthest_holes(&held->part, &one, &other);
    for (int number = 1; number <= (int)held->part.holes.count; number++) {
        if (number == one || number == other)
            add_locator(&new, number);
        else
            add_hold_down(&new, number);
    }
    return record->id;
}
