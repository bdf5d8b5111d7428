/* Which field of the details each finding is about: marked there, with what is found. */
#include "editor/details-private.h"

#include "checks/rule.h"
#include "checks/sentence.h"
#include "editor/field-row.h"
#include "editor/speech.h"

#include <stddef.h>
#include <string.h>

#define NO_LIST ((size_t)-1)
#define ANY_STEP (-1)

/* A field that a rule's findings are about, of a kind of record. */
typedef struct About {
    const char *rule;
    RecordKind kind;
    size_t list, offset; /* of the list in the body, and in the item or body */
    int step;            /* of a hole's steps: the StepKind */
} About;

#define BODY(rule, kind, type, member)                        \
    {                                                         \
        rule, kind, NO_LIST, offsetof(type, member), ANY_STEP \
    }
#define HOLE_AT(rule) BODY(rule, RECORD_HOLE, Hole, at)
#define RECESS_AT(rule) BODY(rule, RECORD_RECESS, Recess, at)
#define STATION_AT(rule) BODY(rule, RECORD_STATION, Station, at)
#define CLAMP_AT(rule) BODY(rule, RECORD_FITTING, Fitting, at)
#define STEP_OF(rule, step, member)                                            \
    {                                                                          \
        rule, RECORD_HOLE, offsetof(Hole, steps), offsetof(Step, member), step \
    }

#define PASS_OF(rule, member)                                                                 \
    {                                                                                         \
        rule, RECORD_OPERATION, offsetof(Operation, passes), offsetof(Pass, member), ANY_STEP \
    }

static const About abouts[] = {
    HOLE_AT("outside-plate"),
    RECESS_AT("outside-plate"),
    STATION_AT("outside-plate"),
    HOLE_AT("edge-distance"),
    RECESS_AT("edge-distance"),
    HOLE_AT("web"),
    RECESS_AT("web"),
    HOLE_AT("overlap"),
    RECESS_AT("overlap"),
    BODY("floor", RECORD_RECESS, Recess, depth),
    STEP_OF("floor", ANY_STEP, depth),
    BODY("breaks-through", RECORD_RECESS, Recess, depth),
    STEP_OF("breaks-through", ANY_STEP, depth),
    HOLE_AT("cross-drilled"),
    STEP_OF("cross-drilled", ANY_STEP, depth),
    RECESS_AT("cross-drilled"),
    BODY("datum-lost", RECORD_SETTINGS, Settings, datum.kind),
    HOLE_AT("insert-room"),
    BODY("keep-clear", RECORD_KEEP_CLEAR, KeepClear, at),
    HOLE_AT("keep-clear"),
    RECESS_AT("keep-clear"),
    STATION_AT("keep-clear"),
    CLAMP_AT("keep-clear"),
    STATION_AT("parts-overlap"),
    STATION_AT("part-overhang"),
    BODY("locator-fit", RECORD_FITTING, Fitting, diameter),
    BODY("locator-pitch", RECORD_PART, Part, growth),
    BODY("locator-pitch", RECORD_HOLE, Hole, position_tolerance),
    BODY("locator-pitch", RECORD_FITTING, Fitting, diameter),
    BODY("shoulder-length", RECORD_FITTING, Fitting, length),
    BODY("shoulder-bearing", RECORD_FITTING, Fitting, length),
    STEP_OF("shoulder-seat", STEP_COUNTERSINK, diameter),
    STEP_OF("shoulder-seat", STEP_COUNTERBORE, diameter),
    STEP_OF("shoulder-guided", STEP_REAM, depth),
    STEP_OF("shoulder-guided", STEP_BORE, depth),
    CLAMP_AT("clamp-travel"),
    BODY("clamp-travel", RECORD_FITTING, Fitting, travel_greatest),
    BODY("clamp-height", RECORD_FITTING, Fitting, head_height),
    CLAMP_AT("clamp-backing"),
    BODY("clamp-bows", RECORD_FITTING, Fitting, force),
    STEP_OF("thread-engagement", STEP_TAP, depth),
    STEP_OF("tap-depth", STEP_DRILL, depth),
    STEP_OF("tap-depth", STEP_TAP, depth),
    STEP_OF("tap-drill", STEP_DRILL, diameter),
    STEP_OF("drill-ratio", STEP_DRILL, depth),
    STEP_OF("ream-stock", STEP_DRILL, diameter),
    STEP_OF("ream-floor", STEP_REAM, depth),
    STEP_OF("pin-removal", ANY_STEP, depth),
    HOLE_AT("access"),
    CLAMP_AT("access"),
    HOLE_AT("drill-entry"),
    HOLE_AT("spoils-locator"),
    HOLE_AT("wall-to-face"),
    RECESS_AT("wall-to-face"),
    STATION_AT("turned-over-agrees"),
    STATION_AT("cutter-meets-neighbour"),
    BODY("inside-corner", RECORD_RECESS, Recess, corner_radius),
    BODY("travel", RECORD_SETTINGS, Settings, machine.travel_x),
    BODY("travel", RECORD_SETTINGS, Settings, machine.travel_y),
    PASS_OF("cutter-cuts-plate", depth_below),
    PASS_OF("exit-room", depth_below),
    PASS_OF("cutter-meets-hardware", cutter_diameter),
    PASS_OF("cutter-meets-neighbour", cutter_diameter),
    PASS_OF("holder-meets-clamp", gauge_length),
    PASS_OF("reach", flute_length),
    PASS_OF("comes-loose", force),
    BODY("bevel-runs-out", RECORD_PART, Part, bevel.angle),
    BODY("edge-thins", RECORD_PART, Part, bevel.edge_thickness),
};

static gboolean is_about(const About *about, const Record *record, const DetailSpot *spot)
{
    size_t list = spot->list ? spot->list->offset : NO_LIST;
    if (about->kind != record->kind || about->list != list || about->offset != spot->field->offset)
        return FALSE;
    if (spot->field->kind == DETAIL_HEADING || spot->field->kind == DETAIL_LIST)
        return FALSE;
    /* A finding names the operation, not which of several passes. */
    if (record->kind == RECORD_OPERATION && record->operation.passes.count != 1)
        return FALSE;
    return about->step == ANY_STEP ||
           LIST_AT(&record->hole.steps, Step, spot->index)->kind == about->step;
}

/* A finding names stations, not the parts that stand there. */
static gboolean names(PinDetails *details, const Finding *finding, const Record *record)
{
    const Plate *plate = pin_document_plate(details->document);
    for (int i = 0; i < finding->feature_count; i++) {
        const Record *station = plate_find_kind(plate, finding->features[i], RECORD_STATION);
        if (finding->features[i] == record->id ||
            (station && record->kind == RECORD_PART && station->station.part == record->id))
            return TRUE;
    }
    if (record->kind == RECORD_OPERATION)
        return finding->operation == record->id;
    return record->kind == RECORD_SETTINGS && finding->feature_count == 0;
}

/* The first finding is the worst. */
static const Finding *find(PinDetails *details, const Record *record, const DetailSpot *spot)
{
    const FindingList *findings = session_findings(pin_document_session(details->document));
    for (size_t a = 0; a < G_N_ELEMENTS(abouts); a++) {
        if (!is_about(&abouts[a], record, spot))
            continue;
        for (uint32_t i = 0; i < findings->count; i++) {
            const Finding *finding = &findings->items[i];
            if (!finding->accepted && strcmp(finding->rule->slug, abouts[a].rule) == 0 &&
                names(details, finding, record))
                return finding;
        }
    }
    return NULL;
}

void details_mark(PinDetails *details)
{
    Session *session = pin_document_session(details->document);
    const Record *record = details_record(details);
    for (guint i = 0; record && i < details->bound->len; i++) {
        Bound *bound = g_ptr_array_index(details->bound, i);
        if (!PIN_IS_FIELD_ROW(bound->widget) || !detail_body(record, &bound->spot))
            continue;
        char message[SENTENCE_TEXT] = "";
        const Finding *finding = find(details, record, &bound->spot);
        if (finding)
            finding_message_said(finding, session_placed(session), session_unit(session),
                                 pin_speech(), message);
        message[0] = g_ascii_toupper(message[0]);
        pin_field_row_mark(PIN_FIELD_ROW(bound->widget), finding ? message : NULL);
    }
}
