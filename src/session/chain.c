#include "session/chain.h"

#include "checks/clamp-contact.h"
#include "session/edited.h"
#include "session/new-things.h"

/* --- cutters -------------------------------------------------------------------------------- */

/* What a small shop has in the holder (common practice, no source). */
typedef struct UsualCutter {
    Length diameter, flute_length, holder_diameter, gauge_length, depth_below;
} UsualCutter;

static UsualCutter usual_cutter(const Session *session)
{
    if (session_unit(session) == UNIT_MM)
        return (UsualCutter){6 * LENGTH_MM, 13 * LENGTH_MM, 25 * LENGTH_MM, 40 * LENGTH_MM,
                             LENGTH_MM / 4};
    return (UsualCutter){LENGTH_INCH / 4, LENGTH_INCH / 2, LENGTH_INCH, LENGTH_INCH * 3 / 2,
                         LENGTH_INCH / 100};
}

static Pass *add_pass(const Session *session, Record *operation, int where)
{
    UsualCutter usual = usual_cutter(session);
    Pass *pass = list_append(&operation->operation.passes, Pass);
    pass->where = where;
    pass->cutter_diameter = usual.diameter;
    pass->flute_length = usual.flute_length;
    pass->holder_diameter = usual.holder_diameter;
    pass->gauge_length = usual.gauge_length;
    pass->depth_below = usual.depth_below;
    return pass;
}

/* One drill for each size of the part's holes. */
static void add_drills(const Session *session, Record *operation, const Part *part)
{
    for (uint32_t i = 0; i < part->holes.count; i++) {
        Length diameter = LIST_AT(&part->holes, PartHole, i)->diameter;
        bool again = false;
        for (uint32_t k = 0; k < i; k++)
            again = again || LIST_AT(&part->holes, PartHole, k)->diameter == diameter;
        if (again)
            continue;
        Pass *pass = add_pass(session, operation, PASS_HOLES);
        pass->cutter_diameter = diameter;
        pass->flute_length = 10 * diameter;
        pass->point = 118 * ANGLE_DEGREE;
    }
}

/* --- running ---------------------------------------------------------------------------------- */

typedef struct Chain {
    Session *session;
    const Plate *plate;
    Edit *edit;
    FeatureId part_id;
    const Part *part;
    int32_t order;
} Chain;

static void append_id(List *list, FeatureId id)
{
    for (uint32_t i = 0; i < list->count; i++)
        if (*LIST_AT(list, FeatureId, i) == id)
            return;
    *list_append(list, FeatureId) = id;
}

static bool list_has(const List *list, FeatureId id)
{
    for (uint32_t i = 0; i < list->count; i++)
        if (*LIST_AT(list, FeatureId, i) == id)
            return true;
    return false;
}

static Record *new_operation(Chain *chain, const char *name, int kind, FeatureId face)
{
    Record *record = record_new(session_new_id(chain->session), RECORD_OPERATION);
    record->operation.name = g_strdup(name);
    record->operation.kind = kind;
    record->operation.order = ++chain->order;
    record->operation.face = face;
    return record;
}

static int32_t last_order(const Plate *plate, int kind)
{
    int32_t last = 0;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_OPERATION && record->operation.kind == kind)
            last = MAX(last, record->operation.order);
    }
    return last;
}

/* The screws and pins that go through a station's part. */
static void fit_screws(const Chain *chain, Record *operation, FeatureId station)
{
    for (uint32_t i = 0; i < plate_count(chain->plate); i++) {
        const Record *record = plate_at(chain->plate, i);
        if (record->kind == RECORD_FITTING && record->fitting.station == station &&
            record->fitting.kind != FITTING_EDGE_CLAMP)
            append_id(&operation->operation.fitted, record->id);
    }
}

/* The walk over clamps hands back its context alone: what else it needs lies behind it. */
typedef struct ClampWalk {
    RuleContext context;
    Record *operation;
} ClampWalk;

static void fit_clamp(RuleContext *context, const ClampContact *contact)
{
    ClampWalk *walk = (ClampWalk *)(void *)context;
    Operation *operation = &walk->operation->operation;
    if (contact->part && list_has(&operation->stations, contact->part->id))
        append_id(&operation->fitted, contact->clamp->id);
}

static void fit_clamps(const Chain *chain, Record *operation)
{
    ClampWalk walk = {.context = {.placed = session_placed(chain->session)},
                      .operation = operation};
    each_clamp(&walk.context, fit_clamp);
}

static void add_holes(Chain *chain, const FeatureId *stations, uint32_t count)
{
    if (chain->part->holes.count == 0)
        return;
    Record *record = new_operation(chain, "Drill the holes", OPERATION_RUNNING, ID_TOP);
    for (uint32_t i = 0; i < count; i++)
        append_id(&record->operation.stations, stations[i]);
    fit_clamps(chain, record);
    add_drills(chain->session, record, chain->part);
    new_thing(chain->session, record, chain->edit);
}

static void add_profile(Chain *chain, const FeatureId *stations, uint32_t count)
{
    Record *record = new_operation(chain, "Cut the profile", OPERATION_RUNNING, ID_TOP);
    for (uint32_t i = 0; i < count; i++) {
        append_id(&record->operation.stations, stations[i]);
        fit_screws(chain, record, stations[i]);
    }
    record->operation.note =
        g_strdup("Screws and pins go in through the drilled holes, then the clamps come off.");
    if (chain->part->rings.count > 1)
        add_pass(chain->session, record, PASS_OUTLINE_INSIDE);
    add_pass(chain->session, record, PASS_OUTLINE_OUTSIDE);
    new_thing(chain->session, record, chain->edit);
}

static bool is_inclined(const Plate *plate, FeatureId face)
{
    const Record *record = plate_find_kind(plate, face, RECORD_FACE);
    return record && record->face.kind == FACE_INCLINED;
}

static bool runs_already(const Plate *plate, FeatureId station)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_OPERATION && record->operation.kind == OPERATION_RUNNING &&
            list_has(&record->operation.stations, station))
            return true;
    }
    return false;
}

/* The part's stations for one of its sides, each inclined face an operation of its own. */
static void add_bevels(Chain *chain, bool turned_over)
{
    GPtrArray *made = g_ptr_array_new();
    for (uint32_t i = 0; i < plate_count(chain->plate); i++) {
        const Record *station = plate_at(chain->plate, i);
        if (station->kind != RECORD_STATION || station->station.part != chain->part_id ||
            station->station.turned_over != turned_over ||
            !is_inclined(chain->plate, station->station.face) ||
            runs_already(chain->plate, station->id))
            continue;
        Record *record = NULL;
        for (guint k = 0; k < made->len; k++) {
            Record *other = made->pdata[k];
            if (other->operation.face == station->station.face)
                record = other;
        }
        if (!record) {
            record = new_operation(chain, turned_over ? "Bevel, other side" : "Bevel, first side",
                                   OPERATION_RUNNING, station->station.face);
            add_pass(chain->session, record, PASS_BEVEL)->depth_below = 0;
            g_ptr_array_add(made, record);
        }
        append_id(&record->operation.stations, station->id);
        fit_screws(chain, record, station->id);
    }
    for (guint i = 0; i < made->len; i++)
        new_thing(chain->session, made->pdata[i], chain->edit);
    g_ptr_array_unref(made);
}

static bool take_stations(Chain *chain, const FeatureId *stations, uint32_t count, Error *error)
{
    for (uint32_t i = 0; i < count; i++) {
        const Record *record = plate_find_kind(chain->plate, stations[i], RECORD_STATION);
        if (!record || record->station.face != ID_TOP)
            return error_set(error, ERROR_MISSING, NULL,
                             "choose stations on the top, where the blanks lie");
        if (chain->part_id && record->station.part != chain->part_id)
            return error_set(error, ERROR_CONFLICT, NULL,
                             "the stations hold different parts; set up the operations of one "
                             "part at a time");
        if (runs_already(chain->plate, stations[i]))
            return error_set(error, ERROR_CONFLICT, NULL,
                             "station %s has its operations already; change those, or take them "
                             "away first",
                             record->station.label ? record->station.label : "");
        chain->part_id = record->station.part;
    }
    const Record *part = plate_find_kind(chain->plate, chain->part_id, RECORD_PART);
    if (!part)
        return error_set(error, ERROR_MISSING, NULL, "choose at least one station");
    chain->part = &part->part;
    return true;
}

bool new_running_chain(Session *session, const FeatureId *stations, uint32_t count, Edit *edit,
                       Error *error)
{
    const Plate *plate = session_plate(session);
    Chain chain = {.session = session,
                   .plate = plate,
                   .edit = edit,
                   .order = last_order(plate, OPERATION_RUNNING)};
    if (!take_stations(&chain, stations, count, error))
        return false;
    add_holes(&chain, stations, count);
    add_profile(&chain, stations, count);
    if (chain.part->bevel.angle > 0) {
        add_bevels(&chain, false);
        add_bevels(&chain, true);
    }
    edit_set_name(edit, "Set up the operations");
    return true;
}

/* --- making ----------------------------------------------------------------------------------- */

static bool is_seat(const Plate *plate, const Record *record)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *base = plate_at(plate, i);
        for (uint32_t k = 0; base->kind == RECORD_BASE && k < base->base.seats.count; k++) {
            Place at = LIST_AT(&base->base.seats, BaseSeat, k)->at;
            const Place *own = record_place_const(record);
            if (own->x == at.x && own->y == at.y)
                return record_face(record) == ID_TOP && !record_station(record);
        }
    }
    return false;
}

static FeatureId operation_of(const Record *record)
{
    return record->kind == RECORD_HOLE     ? record->hole.operation
           : record->kind == RECORD_RECESS ? record->recess.operation
                                           : ID_NONE;
}

/* Puts what lies on the face and is or is not for the base in a new operation. */
static void make_those(Chain *chain, FeatureId face, bool seats, const char *name)
{
    Record *operation = NULL;
    for (uint32_t i = 0; i < plate_count(chain->plate); i++) {
        const Record *record = plate_at(chain->plate, i);
        if ((record->kind != RECORD_HOLE && record->kind != RECORD_RECESS) ||
            record_face(record) != face || operation_of(record) || record_made(record) ||
            is_seat(chain->plate, record) != seats)
            continue;
        if (!operation)
            operation = new_operation(chain, name, OPERATION_MAKING, face);
        Record *copy = edited_change(chain->plate, chain->edit, record->id);
        FeatureId *own =
            copy->kind == RECORD_HOLE ? &copy->hole.operation : &copy->recess.operation;
        *own = operation->id;
    }
    if (operation)
        new_thing(chain->session, operation, chain->edit);
}

bool new_making_order(Session *session, Edit *edit, Error *error)
{
    const Plate *plate = session_plate(session);
    Chain chain = {.session = session,
                   .plate = plate,
                   .edit = edit,
                   .order = last_order(plate, OPERATION_MAKING)};
    make_those(&chain, ID_TOP, true, "Base locators");
    make_those(&chain, ID_TOP, false, "On its base: top");
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *face = plate_at(plate, i);
        if (face->kind != RECORD_FACE || face->face.kind != FACE_INCLINED)
            continue;
        char *name = g_strdup_printf("On its base: %s", face->face.name);
        make_those(&chain, face->id, false, name);
        g_free(name);
    }
    if (edit->count == 0)
        return error_set(error, ERROR_CONFLICT, NULL,
                         "every hole and recess has its making operation already");
    edit_set_name(edit, "Order of making");
    return true;
}
