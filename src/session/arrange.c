#include "session/arrange.h"

#include "geometry/words.h"
#include "session/movement.h"

/* --- where things lie ----------------------------------------------------------------------------
 */

static const Feature *feature_of(const Session *session, FeatureId id)
{
    return placed_find(session_placed(session), id);
}

/* Where a thing has its centre: a part its middle, all else the place it has. */
static Point centre_of(const Feature *feature)
{
    if (feature->kind != FEATURE_PART)
        return feature_at(feature);
    return (Point){(feature->box.x0 + feature->box.x1) / 2,
                   (feature->box.y0 + feature->box.y1) / 2};
}

static double line_of(const Feature *feature, Alignment alignment)
{
    switch (alignment) {
    case ALIGN_LEFT:
        return feature->box.x0;
    case ALIGN_CENTRE_X:
        return centre_of(feature).x;
    case ALIGN_RIGHT:
        return feature->box.x1;
    case ALIGN_FRONT:
        return feature->box.y0;
    case ALIGN_CENTRE_Y:
        return centre_of(feature).y;
    case ALIGN_BACK:
        return feature->box.y1;
    }
    return 0;
}

static bool on_one_face(const Session *session, const FeatureId *ids, uint32_t count, Error *error)
{
    const Feature *first = count ? feature_of(session, ids[0]) : NULL;
    for (uint32_t i = 0; i < count; i++) {
        const Feature *feature = feature_of(session, ids[i]);
        if (!first || !feature || feature->face != first->face)
            return error_set(error, ERROR_CONFLICT, NULL,
                             "what is brought into line must lie on one face");
    }
    return true;
}

bool arrange_middle(const Session *session, const FeatureId *ids, uint32_t count, Place *middle)
{
    Box box = BOX_EMPTY;
    for (uint32_t i = 0; i < count; i++) {
        const Feature *feature = feature_of(session, ids[i]);
        if (feature)
            box = box_union(box, feature->box);
    }
    if (box_is_empty(box))
        return false;
    *middle = (Place){length_from_mm((box.x0 + box.x1) / 2), length_from_mm((box.y0 + box.y1) / 2)};
    return true;
}

/* --- moving each by its own way ------------------------------------------------------------------
 */

/* Adds the thing's own move to the edit; nothing where it does not move. */
static bool add_move(const Session *session, FeatureId id, Length dx, Length dy, Edit *edit,
                     Error *error)
{
    Movement movement;
    if (dx == 0 && dy == 0)
        return true;
    if (!movement_begin(session, &id, 1, &movement, error))
        return false;
    movement_shift(&movement, dx, dy);
    movement_add_to(&movement, edit);
    return true;
}

bool arrange_align(const Session *session, const FeatureId *ids, uint32_t count,
                   Alignment alignment, Edit *edit, Error *error)
{
    if (count < 2)
        return error_set(error, ERROR_MISSING, NULL, "select two or more things to bring in line");
    if (!on_one_face(session, ids, count, error))
        return false;
    double line = line_of(feature_of(session, ids[0]), alignment);
    bool along_x = alignment <= ALIGN_RIGHT;
    edit_set_name(edit, "Align");
    for (uint32_t i = 1; i < count; i++) {
        Length by = length_from_mm(line - line_of(feature_of(session, ids[i]), alignment));
        if (!add_move(session, ids[i], along_x ? by : 0, along_x ? 0 : by, edit, error))
            return false;
    }
    return true;
}

typedef struct Spaced {
    FeatureId id;
    double at;
} Spaced;

static int compare_spaced(const void *a, const void *b)
{
    const Spaced *one = a, *other = b;
    if (one->at != other->at)
        return one->at < other->at ? -1 : 1;
    return (one->id > other->id) - (one->id < other->id);
}

bool arrange_space(const Session *session, const FeatureId *ids, uint32_t count, bool along_y,
                   Edit *edit, Error *error)
{
    if (count < 3)
        return error_set(error, ERROR_MISSING, NULL, "select three or more things to space evenly");
    if (!on_one_face(session, ids, count, error))
        return false;
    Spaced *spaced = g_new(Spaced, count);
    for (uint32_t i = 0; i < count; i++) {
        Point centre = centre_of(feature_of(session, ids[i]));
        spaced[i] = (Spaced){ids[i], along_y ? centre.y : centre.x};
    }
    qsort(spaced, count, sizeof *spaced, compare_spaced);
    double first = spaced[0].at, pitch = (spaced[count - 1].at - first) / (count - 1);
    bool good = true;
    edit_set_name(edit, "Space evenly");
    for (uint32_t i = 1; good && i + 1 < count; i++) {
        Length by = length_from_mm(first + i * pitch - spaced[i].at);
        good = add_move(session, spaced[i].id, along_y ? 0 : by, along_y ? by : 0, edit, error);
    }
    g_free(spaced);
    return good;
}

/* --- turning -------------------------------------------------------------------------------------
 */

bool arrange_turn(const Session *session, const FeatureId *ids, uint32_t count, TurnAbout about,
                  Angle by, Edit *edit, Error *error)
{
    Movement movement;
    Place middle = plate_datum(session_plate(session));
    edit_set_name(edit, "Turn");
    if (about != TURN_EACH) {
        if (about == TURN_ALL && !arrange_middle(session, ids, count, &middle))
            return error_set(error, ERROR_MISSING, NULL, "select what is to be turned");
        if (!movement_begin(session, ids, count, &movement, error))
            return false;
        movement_turn(&movement, middle, by);
        movement_add_to(&movement, edit);
        return true;
    }
    for (uint32_t i = 0; i < count; i++) {
        const Feature *feature = feature_of(session, ids[i]);
        if (!feature)
            continue;
        Point centre = centre_of(feature);
        if (!movement_begin(session, &ids[i], 1, &movement, error))
            return false;
        movement_turn(&movement, (Place){length_from_mm(centre.x), length_from_mm(centre.y)}, by);
        movement_add_to(&movement, edit);
    }
    return true;
}

/* --- locks ---------------------------------------------------------------------------------------
 */

/* The record's own lock; NULL for the kinds that have none. */
static bool *lock_of(Record *record)
{
    switch (record->kind) {
    case RECORD_STATION:
        return &record->station.locked;
    case RECORD_HOLE:
        return &record->hole.locked;
    case RECORD_RECESS:
        return &record->recess.locked;
    case RECORD_KEEP_CLEAR:
        return &record->keep_clear.locked;
    default:
        return NULL;
    }
}

/* What is locked when that thing is selected: a screw or pin stands still with its hole. */
static const Record *lockable(const Session *session, FeatureId id)
{
    const Plate *plate = session_plate(session);
    const Record *record = plate_find(plate, id);
    if (record && record->kind == RECORD_FITTING)
        record =
            plate_find(plate, record->fitting.hole ? record->fitting.hole : record->fitting.slot);
    return record && lock_of((Record *)record) ? record : NULL;
}

bool arrange_all_locked(const Session *session, const FeatureId *ids, uint32_t count)
{
    bool any = false;
    for (uint32_t i = 0; i < count; i++) {
        const Record *record = lockable(session, ids[i]);
        if (record && !record_locked(record))
            return false;
        any = any || record;
    }
    return any;
}

bool arrange_lock(const Session *session, const FeatureId *ids, uint32_t count, Edit *edit,
                  Error *error)
{
    bool lock = !arrange_all_locked(session, ids, count), any = false;
    edit_set_name(edit, lock ? N_("Lock") : N_("Unlock"));
    for (uint32_t i = 0; i < count; i++) {
        const Record *record = lockable(session, ids[i]);
        if (!record)
            continue;
        any = true;
        if (record_locked(record) == lock)
            continue;
        Record *copy = record_copy(record, record->id);
        *lock_of(copy) = lock;
        edit_add(edit, record_ref(record), copy);
    }
    return any || error_set(error, ERROR_MISSING, NULL, "there is nothing here that can be locked");
}
