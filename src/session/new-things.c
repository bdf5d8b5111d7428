#include "session/new-things.h"

#include "plate/label.h"

FeatureId new_thing(Session *session, Record *record, Edit *edit)
{
    char label[LABEL_TEXT];
    char **own = record->kind == RECORD_HOLE      ? &record->hole.label
                 : record->kind == RECORD_RECESS  ? &record->recess.label
                 : record->kind == RECORD_STATION ? &record->station.label
                                                  : NULL;
    if (own) {
        label_next(session_plate(session), edit, record, label);
        *own = g_strdup(label);
    }
    edit_add(edit, NULL, record);
    return record->id;
}

FeatureId new_hole(Session *session, FeatureId face, Place at, const Hole *like, Edit *edit)
{
    Record *record = record_new(session_new_id(session), RECORD_HOLE);
    schema_copy(&hole_schema, &record->hole, like);
    g_clear_pointer(&record->hole.label, g_free);
    record->hole.face = face;
    record->hole.station = ID_NONE;
    record->hole.operation = ID_NONE;
    record->hole.made = record->hole.locked = false;
    record->hole.at = at;
    edit_set_name(edit, "New hole");
    return new_thing(session, record, edit);
}

FeatureId new_drilled_hole(Session *session, FeatureId face, Place at, Length diameter, Edit *edit)
{
    Record *record = record_new(session_new_id(session), RECORD_HOLE);
    Step *step = list_append(&record->hole.steps, Step);
    *step = (Step){
        .kind = STEP_DRILL, .diameter = diameter, .through = true, .point = 118 * ANGLE_DEGREE};
    record->hole.face = face;
    record->hole.at = at;
    edit_set_name(edit, "New hole");
    return new_thing(session, record, edit);
}

FeatureId new_slot(Session *session, FeatureId face, Place at, Length length, Length width,
                   Length depth, Edit *edit)
{
    Record *record = record_new(session_new_id(session), RECORD_RECESS);
    record->recess.kind = RECESS_OBROUND;
    record->recess.face = face;
    record->recess.at = at;
    record->recess.length = length;
    record->recess.width = width;
    record->recess.depth = depth;
    edit_set_name(edit, "New slot");
    return new_thing(session, record, edit);
}

FeatureId new_keep_clear(Session *session, FeatureId face, Place at, Length length, Length width,
                         const char *name, Edit *edit)
{
    Record *record = record_new(session_new_id(session), RECORD_KEEP_CLEAR);
    record->keep_clear.face = face;
    record->keep_clear.at = at;
    record->keep_clear.length = length;
    record->keep_clear.width = width;
    record->keep_clear.name = g_strdup(name);
    edit_set_name(edit, "New keep-clear");
    return new_thing(session, record, edit);
}

FeatureId new_part(Session *session, const Part *part, Edit *edit)
{
    const Plate *plate = session_plate(session);
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_PART && schema_equal(&part_schema, &record->part, part))
            return record->id;
    }
    Record *record = record_new(session_new_id(session), RECORD_PART);
    schema_copy(&part_schema, &record->part, part);
    edit_set_name(edit, "New part");
    return new_thing(session, record, edit);
}

FeatureId new_nest(Session *session, FeatureId face, FeatureId station, Length clearance,
                   Length depth, Edit *edit)
{
    Record *record = record_new(session_new_id(session), RECORD_RECESS);
    record->recess.kind = RECESS_NEST;
    record->recess.face = face;
    record->recess.station = station;
    record->recess.clearance = clearance;
    record->recess.depth = depth;
    edit_set_name(edit, "New nest");
    return new_thing(session, record, edit);
}
