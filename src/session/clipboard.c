#include "session/clipboard.h"

#include "plate/json-strict.h"
#include "plate/label.h"

#include <string.h>

/* --- copying -------------------------------------------------------------------------------------
 */

static void add_needed(const Plate *plate, FeatureId id, GArray *needed)
{
    const Record *record = plate_find(plate, id);
    for (guint i = 0; i < needed->len; i++)
        if (g_array_index(needed, FeatureId, i) == id)
            return;
    /* The part comes with its station; a station does not come with its hole: a hole copied alone
     * stands on its own. */
    if (record && record->kind == RECORD_STATION)
        add_needed(plate, record->station.part, needed);
    g_array_append_val(needed, id);
}

/* A thing copied without its station stands where it stood, in the face's own coordinates. */
static Record *as_it_stands(const Plate *plate, const Record *record, const GArray *needed)
{
    Record *copy = record_copy(record, record->id);
    FeatureId station = record_station(record);
    for (guint i = 0; i < needed->len; i++)
        if (!station || g_array_index(needed, FeatureId, i) == station)
            return copy;
    Place *place = record_place(copy);
    Angle *rotation = record_rotation(copy);
    Pose pose = plate_pose(plate, record);
    if (place)
        *place = (Place){length_from_mm(pose.x), length_from_mm(pose.y)};
    if (rotation)
        *rotation =
            angle_normalized(angle_from_degrees(atan2(pose.sine, pose.cosine) * (180 / M_PI)));
    if (copy->kind == RECORD_HOLE)
        copy->hole.station = ID_NONE;
    else if (copy->kind == RECORD_RECESS && copy->recess.kind < RECESS_NEST)
        copy->recess.station = ID_NONE;
    return copy;
}

char *selection_copy(const Session *session, const FeatureId *ids, uint32_t count)
{
    const Plate *plate = session_plate(session);
    GArray *with = selection_with_dependents(plate, ids, count);
    GArray *needed = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    for (guint i = 0; i < with->len; i++)
        add_needed(plate, g_array_index(with, FeatureId, i), needed);
    JsonText text = JSON_TEXT_LINES;
    size_t size;
    json_text_open(&text, '{');
    json_text_key(&text, "format");
    json_text_string(&text, CLIPBOARD_FORMAT);
    json_text_key(&text, "version");
    json_text_whole(&text, FILE_VERSION);
    json_text_key(&text, "things");
    json_text_open(&text, '[');
    for (guint i = 0; i < needed->len; i++) {
        const Record *record = plate_find(plate, g_array_index(needed, FeatureId, i));
        if (!record || record->kind == RECORD_SETTINGS || record->kind == RECORD_FACE)
            continue;
        Record *copy = as_it_stands(plate, record, needed);
        json_text_next(&text);
        record_write(copy, true, &text);
        record_unref(copy);
    }
    json_text_close(&text, ']');
    json_text_close(&text, '}');
    g_array_unref(with);
    g_array_unref(needed);
    return json_text_take(&text, &size);
}

/* --- pasting -------------------------------------------------------------------------------------
 */

typedef struct Pasting {
    Session *session;
    GHashTable *numbers; /* old number -> new number */
    GPtrArray *records;  /* Record * as read, old numbers */
    Error *error;
} Pasting;

static bool read_things(const char *text, size_t size, Pasting *pasting)
{
    json_object *json = json_strict_parse(text, size, pasting->error), *format, *things;
    bool good = json_object_is_type(json, json_type_object) &&
                json_object_object_get_ex(json, "format", &format) &&
                g_strcmp0(json_object_get_string(format), CLIPBOARD_FORMAT) == 0 &&
                json_object_object_get_ex(json, "things", &things) &&
                json_object_is_type(things, json_type_array);
    if (!good)
        error_set(pasting->error, ERROR_FORMAT, NULL, "there is nothing here that can be pasted");
    for (size_t i = 0; good && i < json_object_array_length(things); i++) {
        Record *record = record_read(json_object_array_get_idx(things, i), -1, pasting->error);
        if (record)
            g_ptr_array_add(pasting->records, record);
        good = record != NULL;
    }
    json_object_put(json);
    return good;
}

static FeatureId equal_part(const Plate *plate, const Record *part)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_PART && schema_equal(&part_schema, &record->part, &part->part))
            return record->id;
    }
    return ID_NONE;
}

/* Every thing gets a number; a part that the plate has already is not brought in twice. */
static void give_numbers(Pasting *pasting)
{
    for (guint i = 0; i < pasting->records->len; i++) {
        const Record *record = pasting->records->pdata[i];
        FeatureId id = record->kind == RECORD_PART
                           ? equal_part(session_plate(pasting->session), record)
                           : ID_NONE;
        if (!id)
            id = session_new_id(pasting->session);
        g_hash_table_insert(pasting->numbers, GUINT_TO_POINTER(record->id), GUINT_TO_POINTER(id));
    }
}

static void renumber(Pasting *pasting, FeatureId *id)
{
    void *now = g_hash_table_lookup(pasting->numbers, GUINT_TO_POINTER(*id));
    const Plate *plate = session_plate(pasting->session);
    if (now)
        *id = GPOINTER_TO_UINT(now);
    /* A face of the same number is taken to be the same face; anything else is let go of. */
    else if (!plate_find_kind(plate, *id, RECORD_FACE))
        *id = ID_NONE;
}

static void renumber_record(Pasting *pasting, Record *record)
{
    switch (record->kind) {
    case RECORD_STATION:
        renumber(pasting, &record->station.face);
        renumber(pasting, &record->station.part);
        renumber(pasting, &record->station.mirror_of);
        g_clear_pointer(&record->station.instead_of.items, g_free);
        record->station.instead_of.count = 0;
        record->station.made = false;
        break;
    case RECORD_HOLE:
        renumber(pasting, &record->hole.face);
        renumber(pasting, &record->hole.station);
        renumber(pasting, &record->hole.operation);
        record->hole.made = false;
        break;
    case RECORD_RECESS:
        renumber(pasting, &record->recess.face);
        renumber(pasting, &record->recess.station);
        renumber(pasting, &record->recess.operation);
        record->recess.made = false;
        break;
    case RECORD_FITTING:
        renumber(pasting, &record->fitting.station);
        renumber(pasting, &record->fitting.hole);
        renumber(pasting, &record->fitting.slot);
        record->fitting.made = false;
        break;
    case RECORD_KEEP_CLEAR:
        renumber(pasting, &record->keep_clear.face);
        break;
    default:
        break;
    }
}

static void give_label(const Plate *plate, const Edit *edit, Record *record)
{
    char label[LABEL_TEXT];
    char **own = record->kind == RECORD_HOLE      ? &record->hole.label
                 : record->kind == RECORD_RECESS  ? &record->recess.label
                 : record->kind == RECORD_STATION ? &record->station.label
                                                  : NULL;
    if (!own)
        return;
    g_clear_pointer(own, g_free);
    label_next(plate, edit, record, label);
    *own = g_strdup(label);
}

static void add_pasted(Pasting *pasting, const Record *read, Length dx, Length dy, Edit *edit,
                       GArray *pasted)
{
    const Plate *plate = session_plate(pasting->session);
    FeatureId id =
        GPOINTER_TO_UINT(g_hash_table_lookup(pasting->numbers, GUINT_TO_POINTER(read->id)));
    if (plate_find(plate, id))
        return;
    Record *record = record_copy(read, id);
    renumber_record(pasting, record);
    Place *place = record_place(record);
    if (place && !record_station(record)) {
        place->x += dx;
        place->y += dy;
        if (pasted)
            g_array_append_val(pasted, id);
    }
    give_label(plate, edit, record);
    edit_add(edit, NULL, record);
}

bool selection_paste(Session *session, const char *text, size_t size, Length dx, Length dy,
                     Edit *edit, GArray *pasted, Error *error)
{
    Pasting pasting = {session, g_hash_table_new(NULL, NULL),
                       g_ptr_array_new_with_free_func((GDestroyNotify)record_unref), error};
    bool good = read_things(text, size, &pasting);
    if (good) {
        edit_set_name(edit, "Paste");
        give_numbers(&pasting);
        for (guint i = 0; i < pasting.records->len; i++)
            add_pasted(&pasting, pasting.records->pdata[i], dx, dy, edit, pasted);
    }
    g_hash_table_unref(pasting.numbers);
    g_ptr_array_unref(pasting.records);
    return good;
}
