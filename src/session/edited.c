#include "session/edited.h"

static RecordChange *change_of(const Edit *edit, FeatureId id)
{
    for (uint32_t i = 0; i < edit->count; i++)
        if (edit->changes[i].id == id)
            return &edit->changes[i];
    return NULL;
}

const Record *edited_record(const Plate *plate, const Edit *edit, FeatureId id)
{
    const RecordChange *change = change_of(edit, id);
    return change ? change->after : plate_find(plate, id);
}

Record *edited_change(const Plate *plate, Edit *edit, FeatureId id)
{
    const RecordChange *change = change_of(edit, id);
    const Record *record = plate_find(plate, id);
    if (change)
        return change->after;
    if (!record)
        return NULL;
    Record *copy = record_copy(record, id);
    edit_add(edit, record_ref(record), copy);
    return copy;
}

bool edited_part_box(const Plate *plate, const Edit *edit, FeatureId station, Box *box)
{
    const Record *record = edited_record(plate, edit, station);
    const Record *part = record ? edited_record(plate, edit, record->station.part) : NULL;
    Outline *outline = part ? part_outline(&part->part, NULL) : NULL;
    if (!outline)
        return false;
    *box = outline_box(outline);
    outline_unref(outline);
    return true;
}

Pose edited_station_pose(const Plate *plate, const Edit *edit, FeatureId station)
{
    const Record *record = edited_record(plate, edit, station);
    if (!record)
        return POSE_IDENTITY;
    const Station *own = &record->station;
    return pose_from_model(own->at.x, own->at.y, own->rotation, own->turned_over);
}
