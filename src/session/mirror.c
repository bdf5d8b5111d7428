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
static void follow_station(const Station *before, const Station *after, const Station *twin_before,
                           Station *twin)
{
    Angle twice = angle_normalized(before->rotation + twin_before->rotation);
    Pose mirror = pose_from_model(0, 0, twice, true);
    Point way = pose_direction(mirror, (Point){(double)(after->at.x - before->at.x),
                                               (double)(after->at.y - before->at.y)});
    twin->rotation = angle_normalized(twice - after->rotation);
    twin->at.x = twin_before->at.x + llround(way.x);
    twin->at.y = twin_before->at.y + llround(way.y);
    twin->turned_over = !after->turned_over;
    twin->face = after->face;
    twin->part = after->part;
}

static void follow(const Record *before, const Record *after, const Record *twin_before,
                   Record *twin)
{
    if (before->kind == RECORD_STATION) {
        follow_station(&before->station, &after->station, &twin_before->station, &twin->station);
        return;
    }
    *record_place(twin) = *record_place_const(after);
    if (before->kind == RECORD_RECESS)
        twin->recess.rotation = after->recess.rotation;
}

static bool has_moved(const Record *before, const Record *after)
{
    const Place *was = record_place_const(before), *is = record_place_const(after);
    bool moved = was->x != is->x || was->y != is->y;
    if (before->kind == RECORD_RECESS)
        return moved || before->recess.rotation != after->recess.rotation;
    if (before->kind != RECORD_STATION)
        return moved;
    const Station *one = &before->station, *other = &after->station;
    return moved || one->rotation != other->rotation || one->turned_over != other->turned_over ||
           one->face != other->face || one->part != other->part;
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

static const Record *twin_station(const Plate *plate, const Record *before, const Record *after)
{
    const Record *twin = plate_find_kind(plate, mirror_partner(plate, before->id), RECORD_STATION);
    bool let_go = before->station.mirror_of && !after->station.mirror_of;
    if (!twin || let_go || twin->station.locked ||
        twin->station.turned_over == before->station.turned_over || stands_in_metal(plate, twin))
        return NULL;
    return twin;
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

static const Record *twin_thing(const Plate *plate, const Record *before, const Record *after)
{
    FeatureId partner = mirror_partner(plate, record_station(before));
    for (uint32_t i = 0; partner && i < plate_count(plate); i++) {
        const Record *other = plate_at(plate, i);
        if (other->kind == before->kind && record_station(other) == partner &&
            is_twin(before, other))
            return record_station(after) == record_station(before) && !record_made(other) &&
                           !record_locked(other)
                       ? other
                       : NULL;
    }
    return NULL;
}

/* What goes with a change, where the edit doesn't change it already; NULL: nothing. */
static const Record *twin_of(const Plate *plate, const Edit *edit, const RecordChange *change)
{
    const Record *before = change->before, *after = change->after, *twin = NULL;
    if (!before || !after)
        return NULL;
    if (before->kind == RECORD_STATION)
        twin = twin_station(plate, before, after);
    else if ((before->kind == RECORD_HOLE || before->kind == RECORD_RECESS) &&
             record_station(before))
        twin = twin_thing(plate, before, after);
    return twin && !changes(edit, twin->id) ? twin : NULL;
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
        const RecordChange *change = &edit->changes[i];
        const Record *before = change->before, *after = change->after;
        const Record *twin = twin_of(plate, edit, change);
        if (twin && has_moved(before, after))
            follow(before, after, twin, edited_change(plate, edit, twin->id));
    }
}

MirrorTwins mirror_begin(const Plate *plate, Edit *edit)
{
    MirrorTwins twins = {0, NULL};
    uint32_t count = has_pairs(plate) ? edit->count : 0;
    for (uint32_t i = 0; i < count; i++) {
        const RecordChange *change = &edit->changes[i];
        const Record *before = change->before, *after = change->after;
        const Record *twin = twin_of(plate, edit, change);
        if (!twin)
            continue;
        twins.items = g_renew(MirrorTwin, twins.items, twins.count + 1);
        twins.items[twins.count++] =
            (MirrorTwin){before, after, twin, edited_change(plate, edit, twin->id)};
    }
    return twins;
}

void mirror_follow(const MirrorTwins *twins)
{
    for (uint32_t i = 0; i < twins->count; i++) {
        const MirrorTwin *twin = &twins->items[i];
        follow(twin->before, twin->after, twin->twin_before, twin->twin);
    }
}

void mirror_end(MirrorTwins *twins)
{
    g_free(twins->items);
    *twins = (MirrorTwins){0, NULL};
}
