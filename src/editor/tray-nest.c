#include "editor/tray-nest.h"

#include "editor/intl.h"

/* --- a nest ----------------------------------------------------------------------------------- */

static void deepen(Hole *hole, Length by)
{
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        Step *step = LIST_AT(&hole->steps, Step, i);
        if (!step->through)
            step->depth += by;
    }
}

static void deepen_old(const Plate *plate, FeatureId station, Length by, Edit *edit)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *before = plate_at(plate, i);
        if (before->kind != RECORD_HOLE || before->hole.station != station || before->hole.made)
            continue;
        Record *after = record_copy(before, before->id);
        deepen(&after->hole, by);
        edit_add(edit, record_ref((Record *)before), after);
    }
}

/* The station's record as the edit leaves it, or as the plate has it. */
static const Record *find_station(const Plate *plate, const Edit *edit, FeatureId station)
{
    for (uint32_t i = 0; i < edit->count; i++)
        if (edit->changes[i].id == station)
            return edit->changes[i].after;
    return plate_find_kind(plate, station, RECORD_STATION);
}

void tray_nest_add(Session *session, FeatureId station, const Part *part, Edit *edit)
{
    bool inch = session_unit(session) == UNIT_INCH;
    Length clearance = inch ? LENGTH_INCH / 50 : LENGTH_MM / 2;
    Length step = inch ? LENGTH_INCH / 100 : LENGTH_MM / 10;
    Length depth = MAX(part->thickness / 2 / step * step, step);
    FeatureId face = find_station(session_plate(session), edit, station)->station.face;
    uint32_t older = edit->count;
    FeatureId nest = new_nest(session, face, station, clearance, depth, edit);
    for (uint32_t i = 0; i < edit->count; i++) {
        Record *record = edit->changes[i].after;
        if (record->id == nest && part->blank.length > 0)
            record->recess.kind = RECESS_BLANK_NEST;
        if (i < older && record->kind == RECORD_HOLE)
            deepen(&record->hole, depth);
    }
    deepen_old(session_plate(session), station, depth, edit);
}

static bool is_nest_of(const Record *record, FeatureId station)
{
    return record->kind == RECORD_RECESS && record->recess.kind >= RECESS_NEST &&
           record->recess.station == station;
}

static const Part *part_of(const Plate *plate, FeatureId station)
{
    const Record *record = plate_find_kind(plate, station, RECORD_STATION);
    record = record ? plate_find_kind(plate, record->station.part, RECORD_PART) : NULL;
    return record ? &record->part : NULL;
}

static bool make_nest(Session *session, FeatureId station, gpointer data, Edit *edit, Error *error)
{
    const Plate *plate = session_plate(session);
    const Part *part = part_of(plate, station);
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (is_nest_of(plate_at(plate, i), station))
            return error_set(error, ERROR_CONFLICT, NULL, "%s",
                             _("this station has a nest already"));
    if (!part)
        return error_set(error, ERROR_MISSING, NULL, "%s", _("this station holds no part"));
    tray_nest_add(session, station, part, edit);
    return true;
}

/* --- what a nest is offered ------------------------------------------------------------------- */

static bool make_offer(Session *session, FeatureId station, gpointer data, Edit *edit, Error *error)
{
    const Plate *plate = session_plate(session);
    NestOffer offer = (NestOffer)GPOINTER_TO_INT(data);
    FeatureId nest = ID_NONE;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (is_nest_of(record, station) &&
            (nest == ID_NONE ||
             (!nest_offered(session, nest, offer) && nest_offered(session, record->id, offer))))
            nest = record->id;
    }
    if (nest == ID_NONE)
        return error_set(error, ERROR_MISSING, NULL, "%s",
                         _("this station has no nest yet: drop one on it first"));
    return nest_take_offer(session, nest, offer, edit, error);
}

/* --- their pictures --------------------------------------------------------------------------- */

#define SAMPLE_LENGTH (64 * LENGTH_MM)
#define SAMPLE_WIDTH (36 * LENGTH_MM)

/* A plain bar in a blank with room all round. */
static void fill_sample(Part *part)
{
    static const OutlineNode corners[] = {
        {0, 0, 0}, {SAMPLE_LENGTH, 0, 0}, {SAMPLE_LENGTH, SAMPLE_WIDTH, 0}, {0, SAMPLE_WIDTH, 0}};
    const Length round = 3 * LENGTH_MM;
    PartRing *ring = list_append(&part->rings, PartRing);
    for (gsize i = 0; i < G_N_ELEMENTS(corners); i++)
        *list_append(&ring->nodes, OutlineNode) = corners[i];
    part->thickness = 3 * LENGTH_MM;
    part->blank = (Blank){
        {-round, -round}, SAMPLE_LENGTH + 2 * round, SAMPLE_WIDTH + 2 * round, 3 * LENGTH_MM};
}

static FeatureId sample_station(Session *session, FeatureId face, Place at, Edit *edit)
{
    Record *record = record_new(ID_NONE, RECORD_PART);
    fill_sample(&record->part);
    FeatureId part = new_part(session, &record->part, edit);
    FeatureId station = new_station(session, face, at, part, edit);
    tray_nest_add(session, station, &record->part, edit);
    record_unref(record);
    return station;
}

static bool nest_sample(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                        Error *error)
{
    return sample_station(session, face, at, edit) != ID_NONE;
}

/* The nest first, as it is cut, then what it is offered. */
static bool offer_sample(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                         Error *error)
{
    Edit nest = EDIT_EMPTY;
    FeatureId station = sample_station(session, face, at, &nest);
    bool done =
        session_do(session, &nest, error) && make_offer(session, station, data, edit, error);
    edit_clear(&nest);
    return done;
}

PinTrayItem *tray_nest_item_new(void)
{
    return pin_tray_item_new_on(_("Nest"), make_nest, nest_sample, NULL, NULL);
}

PinTrayItem *tray_offer_item_new(NestOffer offer)
{
    return pin_tray_item_new_on(_(nest_offer_name(offer)), make_offer, offer_sample,
                                GINT_TO_POINTER(offer), NULL);
}
