/* A new station: the part's own holes say which locators and hold-downs it gets. */
#include "session/new-things.h"

#include "plate/label.h"
#include "refit/hardware.h"

#include <math.h>

typedef struct NewStation {
    Session *session;
    Edit *edit;
    const Part *part;
    FeatureId face, station;
} NewStation;

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

/* A hole of the plate, and the hardware that stands in it, under the part's hole. */
static void add_under(const NewStation *new, int number, const Hardware *hardware)
{
    Record *hole = hole_for(new, LIST_AT(&new->part->holes, PartHole, number - 1));
    hardware_make_steps(hardware, &hole->hole);
    Record *fitting = fitting_for(new, hole, number, hardware->kind);
    hardware_make_fitting(hardware, new->part->thickness, &fitting->fitting);
    add_both(new, hole, fitting);
}

static void add_locator(const NewStation *new, int number)
{
    Hardware hardware = hardware_for_locating(LIST_AT(&new->part->holes, PartHole, number - 1));
    add_under(new, number, &hardware);
}

static void add_hold_down(const NewStation *new, int number)
{
    Hardware hardware;
    const PartHole *at = LIST_AT(&new->part->holes, PartHole, number - 1);
    if (hardware_for_holding(at, session_unit(new->session) == UNIT_MM, &hardware))
        add_under(new, number, &hardware);
}

/* --- the station ---------------------------------------------------------------------------- */

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
    NewStation new = {session, edit, &held->part, face, record->id};
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
