#include "session/mirror.h"

#include "session/edited.h"

#include <math.h>

FeatureId mirror_partner(const Plate *plate, FeatureId station)
{
    const Record *own = plate_find_kind(plate, station, RECORD_STATION);
    if (!own)
        return ID_NONE;
    if (plate_find_kind(plate, own->station.mirror_of, RECORD_STATION))
        return own->station.mirror_of;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_STATION && record->station.mirror_of == station)
            return record->id;
    }
    return ID_NONE;
}

static bool changes(const Edit *edit, FeatureId id)
{
    for (uint32_t i = 0; i < edit->count; i++)
        if (edit->changes[i].id == id)
            return true;
    return false;
}

/* A mirror line at the angle L takes a turn by r to one by 2 L - r; what the pair's turns add up to
 * is therefore twice its line's angle, and a way mirrored in it is that turned and turned over. */
static void follow(const Station *before, const Station *after, Station *twin)
{
    Angle twice = angle_normalized(before->rotation + twin->rotation);
    Pose mirror = pose_from_model(0, 0, twice, true);
    Point way = pose_direction(mirror, (Point){(double)(after->at.x - before->at.x),
                                               (double)(after->at.y - before->at.y)});
    twin->rotation = angle_normalized(twice - after->rotation);
    twin->at.x += llround(way.x);
    twin->at.y += llround(way.y);
    twin->turned_over = !after->turned_over;
    twin->face = after->face;
    twin->part = after->part;
}

/* What is cut for a station may stand in metal though the station's own record is not marked. */
static bool stands_in_metal(const Plate *plate, const Record *station)
{
    if (station->station.made)
        return true;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record_station(record) == station->id && record_made(record))
            return true;
    }
    return false;
}

static void keep_station(const Plate *plate, Edit *edit, const Record *before, const Record *after)
{
    const Station *was = &before->station, *is = &after->station;
    FeatureId partner = mirror_partner(plate, before->id);
    const Record *record = plate_find_kind(plate, partner, RECORD_STATION);
    bool let_go = was->mirror_of && !is->mirror_of;
    if (!record || let_go || changes(edit, partner) || record->station.locked ||
        record->station.turned_over == was->turned_over)
        return;
    if (was->at.x == is->at.x && was->at.y == is->at.y && was->rotation == is->rotation &&
        was->turned_over == is->turned_over && was->face == is->face && was->part == is->part)
        return;
    if (stands_in_metal(plate, record))
        return;
    follow(was, is, &edited_change(plate, edit, partner)->station);
}

/* The pair's holes and recesses lie at the same places of the part. */
static bool is_twin(const Record *record, const Record *other)
{
    const Place *a = record_place_const(record), *b = record_place_const(other);
    if (record->kind != other->kind || a->x != b->x || a->y != b->y)
        return false;
    return record->kind == RECORD_HOLE || (record->recess.kind == other->recess.kind &&
                                           record->recess.rotation == other->recess.rotation);
}

static const Record *find_twin(const Plate *plate, const Record *record, FeatureId station)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *other = plate_at(plate, i);
        if (other->kind == record->kind && record_station(other) == station &&
            is_twin(record, other))
            return other;
    }
    return NULL;
}

static void keep_thing(const Plate *plate, Edit *edit, const Record *before, const Record *after)
{
    FeatureId partner = mirror_partner(plate, record_station(before));
    const Record *twin = partner ? find_twin(plate, before, partner) : NULL;
    const Place *was = record_place_const(before), *is = record_place_const(after);
    if (!twin || record_station(after) != record_station(before) || changes(edit, twin->id) ||
        record_made(twin) || record_locked(twin))
        return;
    bool turned =
        before->kind == RECORD_RECESS && before->recess.rotation != after->recess.rotation;
    if (was->x == is->x && was->y == is->y && !turned)
        return;
    Record *copy = edited_change(plate, edit, twin->id);
    *record_place(copy) = *is;
    if (turned)
        copy->recess.rotation = after->recess.rotation;
}

static bool has_pairs(const Plate *plate)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_STATION && record->station.mirror_of)
            return true;
    }
    return false;
}

void mirror_keep(const Plate *plate, Edit *edit)
{
    uint32_t count = has_pairs(plate) ? edit->count : 0;
    for (uint32_t i = 0; i < count; i++) {
        const Record *before = edit->changes[i].before, *after = edit->changes[i].after;
        if (!before || !after)
            continue;
        if (before->kind == RECORD_STATION)
            keep_station(plate, edit, before, after);
        else if ((before->kind == RECORD_HOLE || before->kind == RECORD_RECESS) &&
                 record_station(before))
            keep_thing(plate, edit, before, after);
    }
}
