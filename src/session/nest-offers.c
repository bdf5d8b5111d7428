#include "session/nest-offers.h"

#include "geometry/words.h"
#include "session/edited.h"
#include "session/new-things.h"
#include "session/quiet-place.h"

/* All common practice, no source: a cutter for corners and grooves, a burr's height, a drain that
 * chips pass, a finger. */
typedef struct Sizes {
    Length corner, groove, groove_deeper, drain, finger, finger_deeper;
} Sizes;

static Sizes sizes_of(const Session *session)
{
    if (session_unit(session) == UNIT_MM)
        return (Sizes){6 * LENGTH_MM, 3 * LENGTH_MM,  LENGTH_MM / 2,
                       5 * LENGTH_MM, 16 * LENGTH_MM, 2 * LENGTH_MM};
    return (Sizes){LENGTH_INCH / 4,      LENGTH_INCH / 8,     LENGTH_INCH / 50,
                   LENGTH_INCH * 3 / 16, LENGTH_INCH * 5 / 8, LENGTH_INCH * 2 / 25};
}

/* What counts as room for a finger; what is made is a little more. */
#define FINGER (12 * LENGTH_MM)

const char *nest_offer_name(NestOffer offer)
{
    static const char *const names[NEST_OFFERS] = {N_("Corner relief"), N_("Burr grooves"),
                                                   N_("Drain"), N_("Finger notch")};
    return names[offer];
}

/* --- what the nest has ------------------------------------------------------------------------ */

typedef struct Nest {
    const Record *record, *station;
    const Part *part;
    Length x0, y0, x1, y1; /* the walls of a blank's nest, in the part's own coordinates */
} Nest;

static bool find_nest(const Plate *plate, FeatureId id, Nest *nest)
{
    nest->record = plate_find_kind(plate, id, RECORD_RECESS);
    if (!nest->record || nest->record->recess.kind < RECESS_NEST)
        return false;
    nest->station = plate_find_kind(plate, nest->record->recess.station, RECORD_STATION);
    const Record *part =
        nest->station ? plate_find_kind(plate, nest->station->station.part, RECORD_PART) : NULL;
    if (!part)
        return false;
    nest->part = &part->part;
    const Blank *blank = &nest->part->blank;
    Length clearance = nest->record->recess.clearance;
    nest->x0 = blank->at.x - clearance;
    nest->y0 = blank->at.y - clearance;
    nest->x1 = blank->at.x + blank->length + clearance;
    nest->y1 = blank->at.y + blank->width + clearance;
    return true;
}

static bool is_blank_nest(const Nest *nest)
{
    return nest->record->recess.kind == RECESS_BLANK_NEST;
}

/* What may be what the nest is offered. */
typedef struct Candidate {
    const Session *session;
    const Nest *nest;
    const Record *record;
    const Feature *own, *of_nest; /* NULL where it has no place */
} Candidate;

typedef bool (*IsIt)(const Candidate *candidate);

static bool some_stands_there(const Session *session, const Nest *nest, IsIt is_it)
{
    const Plate *plate = session_plate(session);
    const Placed *placed = session_placed(session);
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        Candidate candidate = {session, nest, record, placed_find(placed, record->id),
                               placed_find(placed, nest->record->id)};
        if (record != nest->record && record_station(record) == nest->station->id &&
            candidate.own && candidate.of_nest && is_it(&candidate))
            return true;
    }
    return false;
}

static bool is_circle_at(const Record *record, Length x, Length y)
{
    return record->kind == RECORD_RECESS && record->recess.kind == RECESS_OBROUND &&
           record->recess.length == record->recess.width && record->recess.at.x == x &&
           record->recess.at.y == y;
}

static bool is_corner(const Candidate *candidate)
{
    const Nest *nest = candidate->nest;
    const Record *record = candidate->record;
    return is_circle_at(record, nest->x0, nest->y0) || is_circle_at(record, nest->x1, nest->y0) ||
           is_circle_at(record, nest->x1, nest->y1) || is_circle_at(record, nest->x0, nest->y1);
}

/* A longer slot along a wall, deeper than the nest. */
static bool is_groove(const Candidate *candidate)
{
    const Nest *nest = candidate->nest;
    const Recess *own = &candidate->record->recess, *recess = &nest->record->recess;
    if (candidate->record->kind != RECORD_RECESS || own->kind != RECESS_OBROUND ||
        own->depth <= recess->depth)
        return false;
    Length half = own->width / 2;
    bool along = own->rotation == 0 && own->length == nest->x1 - nest->x0;
    bool across = own->rotation == 90 * ANGLE_DEGREE && own->length == nest->y1 - nest->y0;
    return (along && (own->at.y == nest->y0 + half || own->at.y == nest->y1 - half)) ||
           (across && (own->at.x == nest->x0 + half || own->at.x == nest->x1 - half));
}

static bool something_stands_in(const Plate *plate, FeatureId hole)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_FITTING && record->fitting.hole == hole)
            return true;
    }
    return false;
}

static bool is_drain(const Candidate *candidate)
{
    Gap room;
    if (candidate->record->kind != RECORD_HOLE || !candidate->own->through ||
        something_stands_in(session_plate(candidate->session), candidate->record->id))
        return false;
    shape_room(&candidate->of_nest->shape, &candidate->own->shape, &room);
    return room.distance >= 0;
}

/* Wide, deeper than the nest, and over its wall. */
static bool is_notch(const Candidate *candidate)
{
    Gap gap, room;
    const Feature *own = candidate->own, *nest = candidate->of_nest;
    if (candidate->record->kind != RECORD_RECESS || own->bottom >= nest->bottom ||
        candidate->record->recess.width < FINGER)
        return false;
    shape_gap(&nest->shape, &own->shape, &gap);
    shape_room(&nest->shape, &own->shape, &room);
    return gap.distance < 0 && room.distance < 0;
}

static const IsIt is_there[NEST_OFFERS] = {is_corner, is_groove, is_drain, is_notch};

bool nest_offered(const Session *session, FeatureId id, NestOffer offer)
{
    Nest nest;
    if (!find_nest(session_plate(session), id, &nest))
        return false;
    bool for_blanks = offer == NEST_OFFER_CORNERS || offer == NEST_OFFER_BURR;
    if (for_blanks && !is_blank_nest(&nest))
        return false;
    return !some_stands_there(session, &nest, is_there[offer]);
}

/* --- making it ------------------------------------------------------------------------------ */

static Record *new_recess(Session *session, const Nest *nest, Length x, Length y, Length length,
                          Length width, Length depth)
{
    Record *record = record_new(session_new_id(session), RECORD_RECESS);
    record->recess.kind = RECESS_OBROUND;
    record->recess.face = nest->record->recess.face;
    record->recess.station = nest->station->id;
    record->recess.at = (Place){x, y};
    record->recess.length = length;
    record->recess.width = width;
    record->recess.depth = depth;
    return record;
}

/* The circle of a cutter at the wall's corner takes all that the same cutter leaves there. */
static void add_corners(Session *session, const Nest *nest, Edit *edit)
{
    Length across = sizes_of(session).corner, depth = nest->record->recess.depth;
    const Place corners[] = {
        {nest->x0, nest->y0}, {nest->x1, nest->y0}, {nest->x1, nest->y1}, {nest->x0, nest->y1}};
    for (size_t i = 0; i < G_N_ELEMENTS(corners); i++)
        new_thing(session,
                  new_recess(session, nest, corners[i].x, corners[i].y, across, across, depth),
                  edit);
}

/* Along each wall, inside it. */
static void add_grooves(Session *session, const Nest *nest, Edit *edit)
{
    Sizes sizes = sizes_of(session);
    Length half = sizes.groove / 2, depth = nest->record->recess.depth + sizes.groove_deeper;
    Length middle_x = (nest->x0 + nest->x1) / 2, middle_y = (nest->y0 + nest->y1) / 2;
    Length length = nest->x1 - nest->x0, width = nest->y1 - nest->y0;
    for (int side = 0; side < 4; side++) {
        bool along = side < 2;
        Length x = along ? middle_x : side == 2 ? nest->x0 + half : nest->x1 - half;
        Length y = !along ? middle_y : side == 0 ? nest->y0 + half : nest->y1 - half;
        Record *record =
            new_recess(session, nest, x, y, along ? length : width, sizes.groove, depth);
        record->recess.rotation = along ? 0 : 90 * ANGLE_DEGREE;
        new_thing(session, record, edit);
    }
}

#define GRID 7

static Box nest_box(const Session *session, const Nest *nest)
{
    const Outline *outline = placed_outline(session_placed(session), nest->station->station.part);
    if (!is_blank_nest(nest) && outline)
        return outline_box(outline);
    return (Box){length_to_mm(nest->x0), length_to_mm(nest->y0), length_to_mm(nest->x1),
                 length_to_mm(nest->y1)};
}

static Place place_in(Box box, double along, double across)
{
    return (Place){length_from_mm(box.x0 + (box.x1 - box.x0) * along),
                   length_from_mm(box.y0 + (box.y1 - box.y0) * across)};
}

/* A drain outside the part's nest is a hole that drains nothing. */
static bool drain_is_inside(const Session *session, const Nest *nest, Place at, Length diameter)
{
    Gap room;
    const Feature *feature = placed_find(session_placed(session), nest->record->id);
    const Feature *station = placed_find(session_placed(session), nest->station->id);
    if (!feature || !station)
        return false;
    Point on_face =
        pose_point(station->shape.pose, (Point){length_to_mm(at.x), length_to_mm(at.y)});
    Shape round = shape_circle(on_face, length_to_mm(diameter));
    shape_room(&feature->shape, &round, &room);
    return room.distance >= 0;
}

static bool add_drain(Session *session, const Nest *nest, Edit *edit)
{
    Place places[GRID * GRID];
    size_t count = 0;
    Length diameter = sizes_of(session).drain;
    Box box = nest_box(session, nest);
    for (int i = 1; i <= GRID; i++)
        for (int k = 1; k <= GRID; k++) {
            Place at = place_in(box, i / (GRID + 1.0), k / (GRID + 1.0));
            if (drain_is_inside(session, nest, at, diameter))
                places[count++] = at;
        }
    Record *record = record_new(session_new_id(session), RECORD_HOLE);
    record->hole.face = nest->record->recess.face;
    record->hole.station = nest->station->id;
    record->hole.note = g_strdup("drain");
    *list_append(&record->hole.steps, Step) = (Step){
        .kind = STEP_DRILL, .diameter = diameter, .through = true, .point = 118 * ANGLE_DEGREE};
    if (!quiet_place(session, edit, record, places, count)) {
        record_unref(record);
        return false;
    }
    new_thing(session, record, edit);
    return true;
}

/* The place of the nest's wall that is nearest to a place outside. */
static Place on_wall(const Session *session, const Nest *nest, Place outside)
{
    Gap gap;
    const Feature *feature = placed_find(session_placed(session), nest->record->id);
    Pose pose = placed_find(session_placed(session), nest->station->id)->shape.pose;
    Point at = pose_point(pose, (Point){length_to_mm(outside.x), length_to_mm(outside.y)});
    Shape point = shape_circle(at, 0);
    shape_gap(&feature->shape, &point, &gap);
    Point own = pose_point(pose_inverse(pose), gap.on_a);
    return (Place){length_from_mm(own.x), length_from_mm(own.y)};
}

static bool add_notch(Session *session, const Nest *nest, Edit *edit)
{
    static const double shares[] = {0.5, 0.3, 0.7, 0.15, 0.85};
    Place places[4 * G_N_ELEMENTS(shares)];
    size_t count = 0;
    Sizes sizes = sizes_of(session);
    if (!placed_find(session_placed(session), nest->record->id))
        return false;
    Box box = box_grown(nest_box(session, nest), 50);
    for (size_t i = 0; i < G_N_ELEMENTS(shares); i++) {
        places[count++] = on_wall(session, nest, place_in(box, shares[i], 0));
        places[count++] = on_wall(session, nest, place_in(box, shares[i], 1));
        places[count++] = on_wall(session, nest, place_in(box, 0, shares[i]));
        places[count++] = on_wall(session, nest, place_in(box, 1, shares[i]));
    }
    Record *record = new_recess(session, nest, 0, 0, sizes.finger, sizes.finger,
                                nest->record->recess.depth + sizes.finger_deeper);
    if (!quiet_place(session, edit, record, places, count)) {
        record_unref(record);
        return false;
    }
    new_thing(session, record, edit);
    return true;
}

bool nest_take_offer(Session *session, FeatureId id, NestOffer offer, Edit *edit, Error *error)
{
    Nest nest;
    bool done = true;
    if (!find_nest(session_plate(session), id, &nest) || !nest_offered(session, id, offer))
        return error_set(error, ERROR_CONFLICT, NULL, "this nest has it, or has no use for it");
    if (offer == NEST_OFFER_CORNERS)
        add_corners(session, &nest, edit);
    else if (offer == NEST_OFFER_BURR)
        add_grooves(session, &nest, edit);
    else if (offer == NEST_OFFER_DRAIN)
        done = add_drain(session, &nest, edit);
    else
        done = add_notch(session, &nest, edit);
    if (!done)
        return error_set(error, ERROR_LIMIT, NULL,
                         "there is no room for it that leaves the plate as sound as it is");
    edit_set_name(edit, nest_offer_name(offer));
    return true;
}
