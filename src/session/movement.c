#include "session/movement.h"

static bool contains(const FeatureId *ids, uint32_t count, FeatureId id)
{
    for (uint32_t i = 0; i < count; i++)
        if (ids[i] == id)
            return true;
    return false;
}

/* A screw or pin has no place of its own: it goes with its hole. */
static FeatureId held_by(const Plate *plate, FeatureId id)
{
    const Record *record = plate_find_kind(plate, id, RECORD_FITTING);
    return record && !record_place_const(record) ? record->fitting.hole : id;
}

static bool goes_along(const Plate *plate, const FeatureId *ids, uint32_t count, FeatureId id)
{
    const Record *record = plate_find(plate, id);
    return record && record_station(record) && contains(ids, count, record_station(record));
}

static bool may_move(const Record *record, Error *error)
{
    char place[48];
    if (!record || !record_place_const(record))
        return error_set(error, ERROR_MISSING, NULL, "there is nothing here that can be moved");
    g_snprintf(place, sizeof place, "%s %s", record_kind_key(record->kind),
               record_label(record) ? record_label(record) : "");
    g_strchomp(place);
    if (record_made(record))
        return error_set(error, ERROR_CONFLICT, place,
                         "stands in metal already: it can be used, never moved");
    if (record_locked(record))
        return error_set(error, ERROR_CONFLICT, place, "is locked; unlock it to move it");
    return true;
}

/* Taking a station also moves what is cut for it. */
static bool station_may_move(const Plate *plate, FeatureId station, Error *error)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record_station(record) == station && record_made(record))
            return may_move(record, error);
    }
    return true;
}

static void take(Movement *movement, const Pose *station, Record *record)
{
    Place start = *record_place(record);
    const Angle *rotation = record_rotation(record);
    if (station) {
        Point p = {length_to_mm(start.x), length_to_mm(start.y)};
        Point on_face = pose_point(*station, p);
        start = (Place){length_from_mm(on_face.x), length_from_mm(on_face.y)};
    }
    movement->items = g_renew(Moved, movement->items, movement->count + 1);
    movement->items[movement->count++] =
        (Moved){record, start, rotation ? *rotation : 0, station ? *station : POSE_IDENTITY,
                station != NULL};
}

bool movement_begin(const Session *session, const FeatureId *ids, uint32_t count,
                    Movement *movement, Error *error)
{
    const Plate *plate = session_plate(session);
    *movement = (Movement){EDIT_EMPTY, 0, NULL};
    for (uint32_t i = 0; i < count; i++) {
        FeatureId id = held_by(plate, ids[i]);
        const Record *record = plate_find(plate, id);
        bool twice = i > 0 && id != ids[i] && contains(ids, count, id);
        if (twice || goes_along(plate, ids, count, id))
            continue;
        bool station = record && record->kind == RECORD_STATION;
        if (!may_move(record, error) || (station && !station_may_move(plate, id, error))) {
            movement_clear(movement);
            return false;
        }
        const Record *on = plate_find(plate, record_station(record));
        Pose pose = POSE_IDENTITY;
        if (on)
            pose = plate_pose(plate, on);
        Record *copy = record_copy(record, id);
        edit_add(&movement->edit, record_ref(record), copy);
        take(movement, on ? &pose : NULL, copy);
    }
    return true;
}

void movement_begin_new(Edit *edit, Movement *movement)
{
    *movement = (Movement){*edit, 0, NULL};
    *edit = EDIT_EMPTY;
    for (uint32_t i = 0; i < movement->edit.count; i++) {
        Record *record = movement->edit.changes[i].after;
        if (record && record_place(record) && !record_station(record))
            take(movement, NULL, record);
    }
}

static void put(const Moved *item, double x, double y)
{
    Place *place = record_place(item->record);
    if (!item->on_station) {
        *place = (Place){llround(x), llround(y)};
        return;
    }
    Point on_face = {x / LENGTH_MM, y / LENGTH_MM};
    Point own = pose_point(pose_inverse(item->station), on_face);
    *place = (Place){length_from_mm(own.x), length_from_mm(own.y)};
}

static void put_rotation(const Moved *item, Angle by)
{
    Angle *rotation = record_rotation(item->record);
    bool mirrored = item->on_station && item->station.turned_over;
    if (rotation)
        *rotation = angle_normalized(item->start_rotation + (mirrored ? -by : by));
}

void movement_shift(Movement *movement, Length dx, Length dy)
{
    for (uint32_t i = 0; i < movement->count; i++) {
        const Moved *item = &movement->items[i];
        put(item, (double)(item->start.x + dx), (double)(item->start.y + dy));
        put_rotation(item, 0);
    }
}

void movement_turn(Movement *movement, Place about, Angle by)
{
    double cosine, sine;
    angle_cos_sin(by, &cosine, &sine);
    for (uint32_t i = 0; i < movement->count; i++) {
        const Moved *item = &movement->items[i];
        double x = (double)(item->start.x - about.x), y = (double)(item->start.y - about.y);
        put(item, (double)about.x + x * cosine - y * sine, (double)about.y + x * sine + y * cosine);
        put_rotation(item, by);
    }
}

void movement_add_to(Movement *movement, Edit *edit)
{
    for (uint32_t i = 0; i < movement->edit.count; i++) {
        const RecordChange *change = &movement->edit.changes[i];
        edit_add(edit, change->before ? record_ref(change->before) : NULL,
                 change->after ? record_ref(change->after) : NULL);
    }
    movement_clear(movement);
}

void movement_clear(Movement *movement)
{
    edit_clear(&movement->edit);
    g_free(movement->items);
    *movement = (Movement){EDIT_EMPTY, 0, NULL};
}
