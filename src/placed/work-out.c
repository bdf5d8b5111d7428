#include "placed/work-out.h"

#include <math.h>

/* Hardware and keep-clears of no stated height reach as high as anything may. */
#define SKY 10000.0

static Pose station_pose(const Sight *sight, FeatureId id)
{
    const Record *record = id ? sight->record(sight->data, id) : NULL;
    if (!record || record->kind != RECORD_STATION)
        return POSE_IDENTITY;
    const Station *station = &record->station;
    return pose_from_model(station->at.x, station->at.y, station->rotation, station->turned_over);
}

static Pose pose_on(const Sight *sight, FeatureId station, Place at, Angle rotation)
{
    Pose own = pose_from_model(at.x, at.y, rotation, false);
    return station ? pose_after(station_pose(sight, station), own) : own;
}

/* What goes through ends where all of it has left the underside: its place furthest up an inclined
 * face leaves last. */
static double bottom_of(const Frame *frame, bool through, Length depth, Point highest)
{
    return through ? -frame_depth_at(frame, highest) : -length_to_mm(depth);
}

static void add_slice(Feature *feature, double growth, double top, double bottom)
{
    if (feature->slice_count == 0) {
        feature->top = top;
        feature->bottom = bottom;
        feature->shape.growth = growth;
    }
    feature->slices[feature->slice_count++] = (Slice){growth, top, bottom, bottom};
    feature->top = fmax(feature->top, top);
    feature->bottom = fmin(feature->bottom, bottom);
    feature->shape.growth = fmax(feature->shape.growth, growth);
}

/* The height of a point of the given included angle over its diameter: common trigonometry. */
static double point_height(const Step *step)
{
    if (step->point <= 0)
        return 0;
    double half = angle_to_degrees(step->point) / 2 * (M_PI / 180);
    return length_to_mm(step->diameter) / 2 / tan(half);
}

/* A spot's and a countersink's depth is where its full diameter is, at the face; its cone reaches
 * below. */
static void place_step(const Frame *frame, const Step *step, Feature *feature)
{
    Point at = feature_at(feature);
    Point highest = {at.x, at.y + length_to_mm(step->diameter) / 2};
    double bottom = bottom_of(frame, step->through, step->depth, highest);
    double tip = step->through || step->kind == STEP_TAP ? bottom : bottom - point_height(step);
    if (step->kind == STEP_SPOT || step->kind == STEP_COUNTERSINK) {
        tip = bottom;
        bottom = fmin(0, bottom + point_height(step));
    }
    add_slice(feature, length_to_mm(step->diameter) / 2, 0, bottom);
    feature->slices[feature->slice_count - 1].tip = tip;
    feature->tip = fmin(feature->tip, tip);
    feature->through = feature->through || step->through;
}

static bool place_hole(const Sight *sight, const Hole *hole, Feature *feature)
{
    const Frame *frame = sight->frame(sight->data, hole->face);
    if (!frame)
        return false;
    feature->kind = FEATURE_HOLE;
    feature->shape.core = CORE_POINT;
    feature->shape.pose = pose_on(sight, hole->station, hole->at, 0);
    for (uint32_t i = 0; i < hole->steps.count; i++)
        place_step(frame, LIST_AT(&hole->steps, Step, i), feature);
    feature->through =
        feature->through || -feature->bottom >= frame_depth_at(frame, feature_at(feature));
    return true;
}

static Shape blank_shape(const Part *part, Pose pose, double growth)
{
    const Blank *blank = &part->blank;
    Pose middle = pose_from_model(blank->at.x, blank->at.y, 0, false);
    middle.x += length_to_mm(blank->length) / 2;
    middle.y += length_to_mm(blank->width) / 2;
    Shape shape = shape_rectangle(pose_after(pose, middle), length_to_mm(blank->length),
                                  length_to_mm(blank->width), 0);
    shape.growth += growth;
    return shape;
}

static const Part *station_part(const Sight *sight, FeatureId station, FeatureId *id)
{
    const Record *record = sight->record(sight->data, station);
    const Record *part = record ? sight->record(sight->data, record->station.part) : NULL;
    if (!part || part->kind != RECORD_PART)
        return NULL;
    *id = part->id;
    return &part->part;
}

static bool recess_shape(const Sight *sight, const Recess *recess, Shape *shape)
{
    FeatureId part_id = ID_NONE;
    double length = length_to_mm(recess->length), width = length_to_mm(recess->width);
    double clearance = length_to_mm(recess->clearance);
    if (recess->kind == RECESS_NEST || recess->kind == RECESS_BLANK_NEST) {
        const Part *part = station_part(sight, recess->station, &part_id);
        Pose pose = station_pose(sight, recess->station);
        const Outline *outline = part ? sight->outline(sight->data, part_id) : NULL;
        if (!outline)
            return false;
        *shape = recess->kind == RECESS_NEST ? shape_outline(outline, pose, clearance)
                                             : blank_shape(part, pose, clearance);
        return true;
    }
    Pose pose = pose_on(sight, recess->station, recess->at, recess->rotation);
    if (recess->kind == RECESS_OBROUND)
        *shape = (Shape){CORE_SEGMENT, pose, width / 2, (length - width) / 2, 0, NULL};
    else
        *shape = shape_rectangle(pose, length, width, length_to_mm(recess->corner_radius));
    return true;
}

static bool place_recess(const Sight *sight, const Recess *recess, Feature *feature)
{
    const Frame *frame = sight->frame(sight->data, recess->face);
    if (!frame || !recess_shape(sight, recess, &feature->shape))
        return false;
    Point highest = {0, shape_box(&feature->shape).y1};
    double bottom = bottom_of(frame, recess->through, recess->depth, highest);
    feature->kind = FEATURE_RECESS;
    add_slice(feature, feature->shape.growth, 0, bottom);
    feature->tip = bottom;
    feature->through = -bottom >= frame_depth_at(frame, highest);
    return true;
}

static bool place_part(const Sight *sight, const Record *record, Feature *feature)
{
    FeatureId part_id = ID_NONE;
    const Part *part = station_part(sight, record->id, &part_id);
    const Outline *outline = part ? sight->outline(sight->data, part_id) : NULL;
    if (!outline)
        return false;
    Pose pose = station_pose(sight, record->id);
    feature->kind = FEATURE_PART;
    feature->station = record->id;
    feature->shape = shape_outline(outline, pose, 0);
    double seat = sight->seat(sight->data, record->id);
    add_slice(feature, 0, length_to_mm(part->thickness) - seat, -seat);
    feature->has_blank = part->blank.length > 0 && part->blank.width > 0;
    if (feature->has_blank)
        feature->blank = blank_shape(part, pose, 0);
    return true;
}

/* A screw or pin stands on its hole's axis: its body up to its length over what the part lies on,
 * its head above. */
static bool place_pin(const Sight *sight, const Fitting *fitting, Feature *feature)
{
    const Record *hole = sight->record(sight->data, fitting->hole);
    if (!hole || hole->kind != RECORD_HOLE)
        return false;
    double seat = fitting->station ? sight->seat(sight->data, fitting->station) : 0;
    double end = length_to_mm(fitting->length) - seat;
    feature->face = hole->hole.face;
    feature->shape.core = CORE_POINT;
    feature->shape.pose = pose_on(sight, hole->hole.station, hole->hole.at, 0);
    add_slice(feature, length_to_mm(fitting->diameter) / 2, end, -seat);
    if (fitting->head_diameter > 0)
        add_slice(feature, length_to_mm(fitting->head_diameter) / 2,
                  end + length_to_mm(fitting->head_height), end);
    return true;
}

static bool place_clamp(const Sight *sight, const Fitting *fitting, Feature *feature)
{
    const Record *slot = sight->record(sight->data, fitting->slot);
    const Record *station = sight->record(sight->data, fitting->station);
    if (slot && slot->kind == RECORD_RECESS)
        feature->face = slot->recess.face;
    else if (station && station->kind == RECORD_STATION)
        feature->face = station->station.face;
    else
        feature->face = ID_TOP;
    Pose pose = pose_on(sight, fitting->station, fitting->at, fitting->rotation);
    double bottom = slot && slot->kind == RECORD_RECESS ? -length_to_mm(slot->recess.depth) : 0;
    feature->shape =
        shape_rectangle(pose, length_to_mm(fitting->length), length_to_mm(fitting->width), 0);
    add_slice(feature, 0, length_to_mm(fitting->head_height), bottom);
    return true;
}

static bool place_keep_clear(const KeepClear *area, Feature *feature)
{
    Pose pose = pose_from_model(area->at.x, area->at.y, area->rotation, false);
    feature->kind = FEATURE_KEEP_CLEAR;
    feature->shape = shape_rectangle(pose, length_to_mm(area->length), length_to_mm(area->width),
                                     length_to_mm(area->corner_radius));
    add_slice(feature, feature->shape.growth, area->height > 0 ? length_to_mm(area->height) : SKY,
              -length_to_mm(area->depth));
    return true;
}

static bool place_record(const Sight *sight, const Record *record, Feature *feature)
{
    switch (record->kind) {
    case RECORD_HOLE:
        return place_hole(sight, &record->hole, feature);
    case RECORD_RECESS:
        return place_recess(sight, &record->recess, feature);
    case RECORD_STATION:
        return place_part(sight, record, feature);
    case RECORD_FITTING:
        feature->kind = FEATURE_FITTING;
        return record->fitting.kind == FITTING_EDGE_CLAMP
                   ? place_clamp(sight, &record->fitting, feature)
                   : place_pin(sight, &record->fitting, feature);
    case RECORD_KEEP_CLEAR:
        return place_keep_clear(&record->keep_clear, feature);
    default:
        return false;
    }
}

bool feature_work_out(const Sight *sight, const Record *record, Feature *feature)
{
    *feature = (Feature){.id = record->id,
                         .face = record_face(record),
                         .station = record_station(record),
                         .shape = {.pose = POSE_IDENTITY}};
    if (!place_record(sight, record, feature) || !sight->frame(sight->data, feature->face))
        return false;
    feature->tip = fmin(feature->tip, feature->bottom);
    feature->box = shape_box(&feature->shape);
    return true;
}
