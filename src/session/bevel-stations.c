/* Stations on inclined faces: the blade's edge on the break line, and the pair for its two sides.
 */
#include "session/inclined.h"

#include "checks/bevel-figures.h"
#include "session/edited.h"
#include "session/new-things.h"

#include <math.h>

/* Corners of a relief, and how far it runs out past the edge, so that none of them lies under the
 * blade. */
#define RELIEF_CORNER (3 * LENGTH_MM)

static Point point_of(Place place)
{
    return (Point){length_to_mm(place.x), length_to_mm(place.y)};
}

/* The bevel's edge in the part's own coordinates. */
typedef struct EdgeLine {
    Point from, to, middle;
    Point along, inward; /* of length 1; inward is towards the blade's middle */
    double length;
} EdgeLine;

static const Part *station_part_in(const Plate *plate, const Edit *edit, FeatureId station)
{
    const Record *record = edited_record(plate, edit, station);
    bool is_station = record && record->kind == RECORD_STATION;
    const Record *part = is_station ? edited_record(plate, edit, record->station.part) : NULL;
    return part && part->kind == RECORD_PART ? &part->part : NULL;
}

static bool find_edge(const Plate *plate, const Edit *edit, FeatureId station, EdgeLine *edge,
                      Error *error)
{
    Box box;
    const Part *part = station_part_in(plate, edit, station);
    if (!part || !edited_part_box(plate, edit, station, &box))
        return error_set(error, ERROR_MISSING, NULL, "choose a station that holds a part");
    edge->from = point_of(part->bevel.from);
    edge->to = point_of(part->bevel.to);
    edge->length = point_distance(edge->from, edge->to);
    if (part->bevel.angle <= 0 || edge->length <= 0)
        return error_set(error, ERROR_MISSING, NULL,
                         "the part has no bevel; give it one in its details first");
    edge->middle = point_times(point_plus(edge->from, edge->to), 0.5);
    edge->along = point_times(point_minus(edge->to, edge->from), 1 / edge->length);
    edge->inward = (Point){-edge->along.y, edge->along.x};
    Point middle = {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
    if (point_dot(edge->inward, point_minus(middle, edge->from)) < 0)
        edge->inward = point_times(edge->inward, -1);
    return true;
}

static bool is_inclined(const Plate *plate, const Edit *edit, FeatureId face)
{
    const Record *record = edited_record(plate, edit, face);
    return record && record->kind == RECORD_FACE && record->face.kind == FACE_INCLINED;
}

static bool may_line_up(const Plate *plate, const Edit *edit, FeatureId id, Error *error)
{
    const Record *record = edited_record(plate, edit, id);
    if (!is_inclined(plate, edit, record->station.face))
        return error_set(error, ERROR_MISSING, NULL,
                         "the station lies on no inclined face, so there is no break line to line "
                         "its blade up with");
    if (record->station.made)
        return error_set(error, ERROR_CONFLICT, NULL,
                         "the station stands in metal already: it can be used, never moved");
    if (record->station.locked)
        return error_set(error, ERROR_CONFLICT, NULL,
                         "the station is locked; unlock it to move "
                         "it");
    return true;
}

/* Inwards must point down the slope, which is the face's -Y. */
static Angle rotation_down(const EdgeLine *edge, bool turned_over)
{
    Point inward = edge->inward;
    if (turned_over)
        inward.y = -inward.y;
    double degrees = -90 - atan2(inward.y, inward.x) * (180 / M_PI);
    return angle_normalized(angle_from_degrees(degrees));
}

bool line_up_bevel(const Session *session, FeatureId station, Edit *edit, Error *error)
{
    EdgeLine edge;
    const Plate *plate = session_plate(session);
    if (!find_edge(plate, edit, station, &edge, error) || !may_line_up(plate, edit, station, error))
        return false;
    Point middle = pose_point(edited_station_pose(plate, edit, station), edge.middle);
    Station *own = &edited_change(plate, edit, station)->station;
    own->rotation = rotation_down(&edge, own->turned_over);
    Pose turned = pose_from_model(0, 0, own->rotation, own->turned_over);
    Point at = pose_point(turned, edge.middle);
    own->at = (Place){length_from_mm(middle.x - at.x), length_from_mm(-at.y)};
    edit_set_name(edit, "Line up with the break line");
    return true;
}

/* --- the pair ------------------------------------------------------------------------------- */

static void clear_marks(Record *record)
{
    switch (record->kind) {
    case RECORD_HOLE:
        record->hole.made = record->hole.locked = false;
        record->hole.operation = ID_NONE;
        g_clear_pointer(&record->hole.label, g_free);
        break;
    case RECORD_RECESS:
        record->recess.made = record->recess.locked = false;
        record->recess.operation = ID_NONE;
        g_clear_pointer(&record->recess.label, g_free);
        break;
    case RECORD_FITTING:
        record->fitting.made = false;
        g_clear_pointer(&record->fitting.label, g_free);
        break;
    default:
        break;
    }
}

static FeatureId as_copied(GHashTable *numbers, FeatureId id)
{
    void *now = g_hash_table_lookup(numbers, GUINT_TO_POINTER(id));
    return now ? GPOINTER_TO_UINT(now) : id;
}

static void copy_one(Session *session, const Record *record, GHashTable *numbers, Edit *edit)
{
    Record *copy = record_copy(record, session_new_id(session));
    clear_marks(copy);
    if (copy->kind == RECORD_HOLE) {
        copy->hole.station = as_copied(numbers, copy->hole.station);
    } else if (copy->kind == RECORD_RECESS) {
        copy->recess.station = as_copied(numbers, copy->recess.station);
    } else {
        copy->fitting.station = as_copied(numbers, copy->fitting.station);
        copy->fitting.hole = as_copied(numbers, copy->fitting.hole);
        copy->fitting.slot = as_copied(numbers, copy->fitting.slot);
    }
    g_hash_table_insert(numbers, GUINT_TO_POINTER(record->id), GUINT_TO_POINTER(copy->id));
    new_thing(session, copy, edit);
}

/* All records of a kind that stand on the station, as the edit would leave them. */
static GPtrArray *standing_on(const Plate *plate, const Edit *edit, FeatureId station,
                              RecordKind kind)
{
    GPtrArray *found = g_ptr_array_new();
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = edited_record(plate, edit, plate_at(plate, i)->id);
        if (record && record->kind == kind && record_station(record) == station)
            g_ptr_array_add(found, (void *)(uintptr_t)record);
    }
    for (uint32_t i = 0; i < edit->count; i++) {
        const RecordChange *change = &edit->changes[i];
        if (!change->before && change->after && change->after->kind == kind &&
            record_station(change->after) == station)
            g_ptr_array_add(found, change->after);
    }
    return found;
}

/* Holes and recesses before the fittings that stand in them. */
static void copy_standing(Session *session, FeatureId station, GHashTable *numbers, Edit *edit)
{
    static const RecordKind kinds[] = {RECORD_HOLE, RECORD_RECESS, RECORD_FITTING};
    for (size_t k = 0; k < G_N_ELEMENTS(kinds); k++) {
        GPtrArray *found = standing_on(session_plate(session), edit, station, kinds[k]);
        for (guint i = 0; i < found->len; i++)
            copy_one(session, found->pdata[i], numbers, edit);
        g_ptr_array_unref(found);
    }
}

static Length middle_line(const Plate *plate, const Edit *edit, FeatureId face)
{
    const Face *own = &edited_record(plate, edit, face)->face;
    double length =
        hypot(length_to_mm(own->to.x - own->from.x), length_to_mm(own->to.y - own->from.y));
    return length_from_mm(-length / 2);
}

/* About a line square to the face's X: turned over, with the rotation's supplement. */
static void mirror_about(Station *station, Length line)
{
    station->turned_over = !station->turned_over;
    station->rotation = angle_normalized(ANGLE_TURN / 2 - station->rotation);
    station->at.x = 2 * line - station->at.x;
}

FeatureId new_mirror_station(Session *session, FeatureId station, Edit *edit, Error *error)
{
    const Plate *plate = session_plate(session);
    const Record *record = edited_record(plate, edit, station);
    if (!record || record->kind != RECORD_STATION) {
        error_set(error, ERROR_MISSING, NULL, "choose the station of the blade's first side");
        return ID_NONE;
    }
    if (!is_inclined(plate, edit, record->station.face)) {
        error_set(error, ERROR_MISSING, NULL,
                  "mirror images for a blade's two sides are made on an inclined face");
        return ID_NONE;
    }
    Record *twin = record_copy(record, session_new_id(session));
    twin->station.made = twin->station.locked = false;
    twin->station.mirror_of = station;
    g_clear_pointer(&twin->station.label, g_free);
    mirror_about(&twin->station, middle_line(plate, edit, record->station.face));
    FeatureId id = new_thing(session, twin, edit);
    GHashTable *numbers = g_hash_table_new(NULL, NULL);
    g_hash_table_insert(numbers, GUINT_TO_POINTER(station), GUINT_TO_POINTER(id));
    copy_standing(session, station, numbers, edit);
    g_hash_table_unref(numbers);
    edit_set_name(edit, "Station for the other side");
    return id;
}

bool new_bevel_pair(Session *session, FeatureId face, FeatureId part, FeatureId stations[2],
                    Edit *edit, Error *error)
{
    const Plate *plate = session_plate(session);
    if (!is_inclined(plate, edit, face))
        return error_set(error, ERROR_MISSING, NULL,
                         "bevel stations lie on an inclined face; choose one, or make one first");
    Place at = {middle_line(plate, edit, face) / 2 * 3, 0};
    stations[0] = new_station(session, face, at, part, edit);
    if (!stations[0])
        return error_set(error, ERROR_MISSING, NULL, "choose a part for the stations to hold");
    if (!line_up_bevel(session, stations[0], edit, error))
        return false;
    /* The whole part stands in the middle of its half, not its edge. */
    Box box;
    edited_part_box(plate, edit, stations[0], &box);
    Pose pose = edited_station_pose(plate, edit, stations[0]);
    Point middle = pose_point(pose, (Point){(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2});
    edited_change(plate, edit, stations[0])->station.at.x += at.x - length_from_mm(middle.x);
    stations[1] = new_mirror_station(session, stations[0], edit, error);
    edit_set_name(edit, "Stations for both sides");
    return stations[1] != ID_NONE;
}

/* --- the relief ----------------------------------------------------------------------------- */

static Record *relief_record(Session *session, const Part *part, const EdgeLine *edge)
{
    double angle = angle_to_degrees(part->bevel.angle);
    double edge_thickness = length_to_mm(part->bevel.edge_thickness);
    double height = blade_bevel_height(length_to_mm(part->thickness), edge_thickness, angle,
                                       part->bevel.both_sides ? 2 : 1);
    double depth = height * tan(angle * M_PI / 180);
    if (height <= 0)
        return NULL;
    double past = length_to_mm(RELIEF_CORNER);
    Point middle = point_plus(edge->middle, point_times(edge->inward, (height - past) / 2));
    Record *record = record_new(session_new_id(session), RECORD_RECESS);
    Recess *recess = &record->recess;
    recess->kind = RECESS_RECTANGLE;
    recess->at = (Place){length_from_mm(middle.x), length_from_mm(middle.y)};
    recess->rotation =
        angle_normalized(angle_from_degrees(atan2(edge->along.y, edge->along.x) * (180 / M_PI)));
    recess->length = length_from_mm(edge->length + 2 * past);
    recess->width = length_from_mm(height + past);
    recess->corner_radius = MIN(RELIEF_CORNER, recess->width / 2);
    recess->depth = length_from_mm(depth);
    return record;
}

FeatureId new_support_relief(Session *session, FeatureId station, Edit *edit, Error *error)
{
    EdgeLine edge;
    const Plate *plate = session_plate(session);
    if (!find_edge(plate, edit, station, &edge, error))
        return ID_NONE;
    const Station *own = &edited_record(plate, edit, station)->station;
    const Part *part = station_part_in(plate, edit, station);
    if (!own->turned_over || !part->bevel.both_sides) {
        error_set(error, ERROR_CONFLICT, NULL,
                  "only the second side of a blade bevelled on both lies on a bevel; choose the "
                  "station that holds it turned over");
        return ID_NONE;
    }
    Record *record = relief_record(session, part, &edge);
    if (!record) {
        error_set(error, ERROR_LIMIT, NULL, "the blade is no thicker than its edge");
        return ID_NONE;
    }
    record->recess.station = station;
    record->recess.face = own->face;
    edit_set_name(edit, "Relief under the first bevel");
    return new_thing(session, record, edit);
}
