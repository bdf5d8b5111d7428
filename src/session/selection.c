#include "session/selection.h"

#include "session/movement.h"

#include <math.h>
#include <string.h>

/* --- what goes together -------------------------------------------------------------------------
 */

typedef struct Naming {
    GHashTable *going;
    bool names;
} Naming;

static bool names_one(FeatureId id, const Field *field, void *data)
{
    Naming *naming = data;
    bool strong = field->refers_to && !field->weak;
    naming->names =
        naming->names || (strong && g_hash_table_contains(naming->going, GUINT_TO_POINTER(id)));
    return !naming->names;
}

static bool names_any(const Record *record, GHashTable *going)
{
    Naming naming = {going, false};
    schema_each_reference(record_schema(record->kind), record_body_const(record), names_one,
                          &naming);
    return naming.names;
}

GArray *selection_with_dependents(const Plate *plate, const FeatureId *ids, uint32_t count)
{
    GHashTable *going = g_hash_table_new(NULL, NULL);
    GArray *all = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    for (uint32_t i = 0; i < count; i++)
        if (plate_find(plate, ids[i]))
            g_hash_table_add(going, GUINT_TO_POINTER(ids[i]));
    /* What stands on a thing has a higher or lower number; a few rounds reach all. */
    for (bool grew = true; grew;) {
        grew = false;
        for (uint32_t i = 0; i < plate_count(plate); i++) {
            const Record *record = plate_at(plate, i);
            if (!g_hash_table_contains(going, GUINT_TO_POINTER(record->id)) &&
                names_any(record, going)) {
                g_hash_table_add(going, GUINT_TO_POINTER(record->id));
                grew = true;
            }
        }
    }
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        FeatureId id = plate_at(plate, i)->id;
        if (g_hash_table_contains(going, GUINT_TO_POINTER(id)))
            g_array_append_val(all, id);
    }
    g_hash_table_unref(going);
    return all;
}

static bool array_has(const GArray *ids, FeatureId id)
{
    for (guint i = 0; i < ids->len; i++)
        if (g_array_index(ids, FeatureId, i) == id)
            return true;
    return false;
}

/* --- taking away --------------------------------------------------------------------------------
 */

/* A record that stays lets go of what leaves. */
static void let_go(const Record *record, const GArray *leaving, Edit *edit)
{
    Record *copy = record_copy(record, record->id);
    bool dropped = false;
    for (guint i = 0; i < leaving->len; i++)
        dropped = schema_drop_weak(record_schema(copy->kind), record_body(copy),
                                   g_array_index(leaving, FeatureId, i)) ||
                  dropped;
    if (dropped && copy->kind == RECORD_SETTINGS)
        copy->settings.datum.kind = DATUM_CORNER;
    if (dropped)
        edit_add(edit, record_ref(record), copy);
    else
        record_unref(copy);
}

static bool may_leave(const Record *record, Error *error)
{
    char place[64];
    if (record->id == ID_SETTINGS || record->id == ID_TOP)
        return error_set(error, ERROR_CONFLICT, NULL, "the plate and its top can't be taken away");
    g_snprintf(place, sizeof place, "%s %s", record_kind_key(record->kind),
               record_label(record) ? record_label(record) : "");
    g_strchomp(place);
    if (record_made(record))
        return error_set(error, ERROR_CONFLICT, place,
                         "stands in metal already and can't be taken away");
    if (record_locked(record))
        return error_set(error, ERROR_CONFLICT, place, "is locked; unlock it first");
    return true;
}

bool selection_delete(const Session *session, const FeatureId *ids, uint32_t count, Edit *edit,
                      Error *error)
{
    const Plate *plate = session_plate(session);
    GArray *leaving = selection_with_dependents(plate, ids, count);
    bool good = true;
    edit_set_name(edit, "Take away");
    for (guint i = 0; good && i < leaving->len; i++) {
        const Record *record = plate_find(plate, g_array_index(leaving, FeatureId, i));
        good = may_leave(record, error);
        if (good)
            edit_add(edit, record_ref(record), NULL);
    }
    for (uint32_t i = 0; good && i < plate_count(plate); i++)
        if (!array_has(leaving, plate_at(plate, i)->id))
            let_go(plate_at(plate, i), leaving, edit);
    g_array_unref(leaving);
    return good;
}

/* --- moving -------------------------------------------------------------------------------------
 */

static void hand_over(Movement *movement, const char *name, Edit *edit)
{
    edit_clear(edit);
    *edit = movement->edit;
    movement->edit = EDIT_EMPTY;
    edit_set_name(edit, name);
    movement_clear(movement);
}

bool selection_move(const Session *session, const FeatureId *ids, uint32_t count, Length dx,
                    Length dy, Edit *edit, Error *error)
{
    Movement movement;
    if (!movement_begin(session, ids, count, &movement, error))
        return false;
    movement_shift(&movement, dx, dy);
    hand_over(&movement, "Move", edit);
    return true;
}

bool selection_turn(const Session *session, const FeatureId *ids, uint32_t count, Place about,
                    Angle by, Edit *edit, Error *error)
{
    Movement movement;
    if (!movement_begin(session, ids, count, &movement, error))
        return false;
    movement_turn(&movement, about, by);
    hand_over(&movement, "Turn", edit);
    return true;
}

/* Turning over about the face's X through the middle of the part: y of the place is mirrored there,
 * and the rotation changes its sign. */
static void turn_station_over(Station *station, const Feature *part)
{
    double middle = (part->box.y0 + part->box.y1) / 2;
    station->turned_over = !station->turned_over;
    station->rotation = angle_normalized(-station->rotation);
    station->at.y = length_from_mm(2 * middle) - station->at.y;
}

bool selection_turn_over(const Session *session, const FeatureId *ids, uint32_t count, Edit *edit,
                         Error *error)
{
    Movement movement;
    const Plate *plate = session_plate(session);
    edit_set_name(edit, "Turn over");
    for (uint32_t i = 0; i < count; i++) {
        const Record *record = plate_find_kind(plate, ids[i], RECORD_STATION);
        const Feature *part = placed_find(session_placed(session), ids[i]);
        if (!record || !part)
            continue;
        if (!movement_begin(session, &ids[i], 1, &movement, error))
            return false;
        movement_clear(&movement);
        Record *copy = record_copy(record, record->id);
        turn_station_over(&copy->station, part);
        edit_add(edit, record_ref(record), copy);
    }
    return true;
}

/* --- copies --------------------------------------------------------------------------------------
 */

bool selection_duplicate(Session *session, const FeatureId *ids, uint32_t count, Length dx,
                         Length dy, Edit *edit, GArray *copies, Error *error)
{
    char *text = selection_copy(session, ids, count);
    bool done = selection_paste(session, text, strlen(text), dx, dy, edit, copies, error);
    g_free(text);
    if (done)
        edit_set_name(edit, "Duplicate");
    return done;
}

/* --- remedies ------------------------------------------------------------------------------------
 */

/* Away from zero, so that the remedy never falls a nanometre short. */
static Length outward(double mm)
{
    double nm = mm * LENGTH_MM;
    return (Length)(nm < 0 ? floor(nm - 1e-6) : ceil(nm + 1e-6));
}

static uint32_t stops_in(const FindingList *findings)
{
    return finding_list_counts(findings).by_level[LEVEL_STOP];
}

bool selection_remedy(Session *session, const Finding *finding, Edit *edit)
{
    const Remedy *remedy = &finding->remedy;
    if (remedy->move == ID_NONE || session_is_trying(session))
        return false;
    uint32_t before = stops_in(session_findings(session));
    Length dx = remedy->by.x == 0 ? 0 : outward(remedy->by.x);
    Length dy = remedy->by.y == 0 ? 0 : outward(remedy->by.y);
    if (!selection_move(session, &remedy->move, 1, dx, dy, edit, NULL))
        return false;
    session_try(session, edit);
    uint32_t after = stops_in(session_shown_findings(session));
    session_stop_trying(session);
    uint32_t allowed = finding->level == LEVEL_STOP && before > 0 ? before - 1 : before;
    if (after <= allowed)
        return true;
    edit_clear(edit);
    return false;
}
