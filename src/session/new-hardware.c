#include "session/new-hardware.h"

#include "session/new-things.h"

#include <math.h>

static Fitting *add_fitting(Session *session, int kind, const char *size, Edit *edit)
{
    Record *record = record_new(session_new_id(session), RECORD_FITTING);
    record->fitting.kind = kind;
    record->fitting.size = g_strdup(size);
    edit_add(edit, NULL, record);
    return &record->fitting;
}

FeatureId new_edge_clamp(Session *session, FeatureId face, Place at, const Clamp *clamp, Edit *edit)
{
    /* The ends are round: the body's own length lies between them. */
    Length length = clamp->body_length + clamp->travel_greatest + clamp->slot_width;
    FeatureId slot =
        new_slot(session, face, at, length, clamp->slot_width, clamp->slot_depth, edit);
    Fitting *fitting = add_fitting(session, FITTING_EDGE_CLAMP, clamp->name, edit);
    fitting->slot = slot;
    fitting->at = at;
    fitting->length = clamp->body_length;
    fitting->width = clamp->body_width;
    fitting->head_height = clamp->body_height - clamp->slot_depth;
    fitting->travel_least = clamp->travel_least;
    fitting->travel_greatest = clamp->travel_greatest;
    fitting->force = llround(clamp->force * 1e6);
    edit_set_name(edit, "New clamp");
    return slot;
}

FeatureId new_pin(Session *session, FeatureId face, Place at, const Hole *hole, const Dowel *dowel,
                  Edit *edit)
{
    FeatureId id = new_hole(session, face, at, hole, edit);
    Fitting *fitting = add_fitting(session, dowel->land > 0 ? FITTING_RELIEVED_PIN : FITTING_DOWEL,
                                   dowel->name, edit);
    fitting->hole = id;
    fitting->diameter = dowel->nominal;
    fitting->upper = dowel->greatest - dowel->nominal;
    fitting->lower = dowel->least - dowel->nominal;
    fitting->length = dowel->nominal;
    edit_set_name(edit, "New pin");
    return id;
}

FeatureId new_hold_down(Session *session, FeatureId face, Place at, const Hole *hole,
                        const Screw *screw, Length held, Edit *edit)
{
    FeatureId id = new_hole(session, face, at, hole, edit);
    Fitting *fitting = add_fitting(session, FITTING_HOLD_DOWN, screw->name, edit);
    fitting->hole = id;
    fitting->diameter = screw->major;
    fitting->length = held;
    fitting->head_diameter = screw->head_diameter;
    fitting->head_height = screw->head_height;
    edit_set_name(edit, "New screw");
    return id;
}
