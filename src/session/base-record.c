#include "session/base-record.h"

#include "session/edited.h"
#include "session/new-things.h"

#include <string.h>

static const Record *first_base(const Plate *plate)
{
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (plate_at(plate, i)->kind == RECORD_BASE)
            return plate_at(plate, i);
    return NULL;
}

static const Record *base_to_update(const Plate *plate, const char *name)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_BASE && g_strcmp0(record->base.name, name) == 0)
            return record;
    }
    return first_base(plate);
}

/* The seat of the other base that is the same one: of its kind, counted in the order of the list.
 */
static const BaseSeat *same_seat(const Base *was, uint32_t which, const Base *is)
{
    int kind = LIST_AT(&was->seats, BaseSeat, which)->kind, turn = 0;
    for (uint32_t i = 0; i < which; i++)
        turn += LIST_AT(&was->seats, BaseSeat, i)->kind == kind;
    for (uint32_t i = 0; i < is->seats.count; i++) {
        const BaseSeat *seat = LIST_AT(&is->seats, BaseSeat, i);
        if (seat->kind == kind && turn-- == 0)
            return seat;
    }
    return NULL;
}

static void move_hole(const Plate *plate, const Record *record, const Base *was, const Base *is,
                      Edit *edit)
{
    for (uint32_t i = 0; i < was->seats.count; i++) {
        const BaseSeat *old = LIST_AT(&was->seats, BaseSeat, i), *now = same_seat(was, i, is);
        bool here = record->hole.at.x == old->at.x && record->hole.at.y == old->at.y;
        if (!now || !here || (now->at.x == old->at.x && now->at.y == old->at.y))
            continue;
        edited_change(plate, edit, record->id)->hole.at = now->at;
        return;
    }
}

static void move_holes(const Plate *plate, const Base *was, const Base *is, Edit *edit)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_HOLE && record->hole.face == ID_TOP && !record->hole.station &&
            !record->hole.made && !record->hole.locked)
            move_hole(plate, record, was, is, edit);
    }
}

bool share_base(Session *session, const Plate *from, Edit *edit, Error *error)
{
    const Plate *plate = session_plate(session);
    const Record *other = first_base(from);
    if (!other)
        return error_set(error, ERROR_MISSING, NULL, "that plate carries no base");
    const Record *own = base_to_update(plate, other->base.name);
    if (own && schema_equal(&base_schema, &own->base, &other->base))
        return error_set(error, ERROR_CONFLICT, NULL, "the base is up to date already");
    edit_set_name(edit, own ? "Update the base" : "Base");
    if (!own) {
        new_thing(session, record_copy(other, session_new_id(session)), edit);
        return true;
    }
    move_holes(plate, &own->base, &other->base, edit);
    edit_add(edit, record_ref(own), record_copy(other, own->id));
    return true;
}
