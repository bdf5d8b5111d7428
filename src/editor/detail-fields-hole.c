/* The figures of what is cut in the plate and of what is fitted to it. */
#include "editor/detail-fields-private.h"

/* --- holes ------------------------------------------------------------------------------------ */

static const char *const step_words[] = {N_("spot"),        N_("drill"), N_("counterbore"),
                                         N_("countersink"), N_("ream"),  N_("tap"),
                                         N_("bore"),        NULL};
static const char *const tap_words[] = {N_("not stated"),   N_("plug"),    N_("bottoming"),
                                        N_("spiral flute"), N_("forming"), NULL};

static bool step_is_tap(const void *body)
{
    return ((const Step *)body)->kind == STEP_TAP;
}

static bool step_is_no_tap(const void *body)
{
    return !step_is_tap(body);
}

static bool step_has_depth(const void *body)
{
    return !((const Step *)body)->through;
}

static bool step_has_point(const void *body)
{
    int kind = ((const Step *)body)->kind;
    return kind == STEP_SPOT || kind == STEP_DRILL || kind == STEP_COUNTERSINK;
}

static bool step_has_limits(const void *body)
{
    int kind = ((const Step *)body)->kind;
    return kind == STEP_REAM || kind == STEP_BORE || kind == STEP_COUNTERBORE;
}

static const DetailField step_fields[] = {
    CHOICE("Kind", Step, kind, step_words),
    FIELD_IF(DETAIL_THREAD, "Thread", Step, thread, step_is_tap),
    CHOICE_IF("Tap", Step, tap, tap_words, step_is_tap),
    FIELD_IF(DETAIL_LENGTH, "Diameter", Step, diameter, step_is_no_tap),
    FIELD(DETAIL_BOOL, "Through the plate", Step, through),
    FIELD_IF(DETAIL_LENGTH, "Depth", Step, depth, step_has_depth),
    FIELD_IF(DETAIL_ANGLE, "Point angle", Step, point, step_has_point),
    FIELD_IF(DETAIL_LENGTH, "Upper limit", Step, upper, step_has_limits),
    FIELD_IF(DETAIL_LENGTH, "Lower limit", Step, lower, step_has_limits),
};

/* A counterbore round all that is there. */
static void begin_step(const Plate *plate, Record *record, void *item)
{
    const List *steps = &record->hole.steps;
    Length largest = hole_largest_diameter(&record->hole);
    const Step *last = LIST_AT(steps, Step, steps->count - 2);
    *(Step *)item = (Step){.kind = STEP_COUNTERBORE,
                           .diameter = largest + last->diameter / 2,
                           .depth = plate_settings(plate)->stock.thickness / 4};
}

static const DetailList steps = {
    .offset = offsetof(Hole, steps),
    .size = sizeof(Step),
    .fields = step_fields,
    .count = G_N_ELEMENTS(step_fields),
    .heading = N_("Step %u"),
    .add = N_("Add a step"),
    .take_away = N_("Take this step away"),
    .least = 1,
    .most = STEPS_MOST,
    .ordered = true,
    .begin = begin_step,
};

static bool hole_stands_alone(const void *body)
{
    return ((const Hole *)body)->station == ID_NONE;
}

static const DetailField hole_fields[] = {
    FIELD(DETAIL_TEXT, "Label", Hole, label),
    PLACE(Hole, at),
    LIST(steps),
    HEADING("More"),
    FIELD(DETAIL_LENGTH, "Position tolerance", Hole, position_tolerance),
    RECORD_IF("Face", Hole, face, RECORD_FACE, hole_stands_alone),
    OPTIONAL("Made in", Hole, operation, RECORD_OPERATION),
    FIELD(DETAIL_TEXT, "Note", Hole, note),
    FIELD(DETAIL_BOOL, "Locked", Hole, locked),
    FIELD(DETAIL_BOOL, "Made already", Hole, made),
};
DETAIL_TABLE(detail_hole, hole_fields);

/* --- recesses --------------------------------------------------------------------------------- */

static const char *const recess_words[] = {N_("obround slot"), N_("rectangle"), N_("nest"),
                                           N_("nest of the blank"), NULL};

static bool recess_is_slot(const void *body)
{
    return ((const Recess *)body)->kind < RECESS_NEST;
}

static bool recess_is_rectangle(const void *body)
{
    return ((const Recess *)body)->kind == RECESS_RECTANGLE;
}

static bool recess_is_nest(const void *body)
{
    return !recess_is_slot(body);
}

static bool recess_has_depth(const void *body)
{
    return !((const Recess *)body)->through;
}

static bool recess_stands_alone(const void *body)
{
    return ((const Recess *)body)->station == ID_NONE;
}

static const DetailField recess_fields[] = {
    FIELD(DETAIL_TEXT, "Label", Recess, label),
    CHOICE("Shape", Recess, kind, recess_words),
    PLACE_IF(Recess, at, recess_is_slot),
    FIELD_IF(DETAIL_ANGLE, "Rotation", Recess, rotation, recess_is_slot),
    FIELD_IF(DETAIL_LENGTH, "Length over all", Recess, length, recess_is_slot),
    FIELD_IF(DETAIL_LENGTH, "Width", Recess, width, recess_is_slot),
    FIELD_IF(DETAIL_LENGTH, "Corner radius", Recess, corner_radius, recess_is_rectangle),
    RECORD_IF("Station", Recess, station, RECORD_STATION, recess_is_nest),
    FIELD_IF(DETAIL_LENGTH, "Clearance", Recess, clearance, recess_is_nest),
    FIELD(DETAIL_BOOL, "Through the plate", Recess, through),
    FIELD_IF(DETAIL_LENGTH, "Depth", Recess, depth, recess_has_depth),
    HEADING("More"),
    RECORD_IF("Face", Recess, face, RECORD_FACE, recess_stands_alone),
    OPTIONAL("Made in", Recess, operation, RECORD_OPERATION),
    FIELD(DETAIL_BOOL, "Locked", Recess, locked),
    FIELD(DETAIL_BOOL, "Made already", Recess, made),
};
DETAIL_TABLE(detail_recess, recess_fields);

/* --- fittings --------------------------------------------------------------------------------- */

static const char *const fitting_words[] = {
    N_("shoulder screw"), N_("dowel"), N_("relieved pin"), N_("hold-down"), N_("edge clamp"), NULL};

static bool fitting_is_clamp(const void *body)
{
    return ((const Fitting *)body)->kind == FITTING_EDGE_CLAMP;
}

static bool fitting_is_no_clamp(const void *body)
{
    return !fitting_is_clamp(body);
}

static bool fitting_goes_through(const void *body)
{
    return fitting_is_no_clamp(body) && ((const Fitting *)body)->station != ID_NONE;
}

static const DetailField fitting_fields[] = {
    FIELD(DETAIL_TEXT, "Label", Fitting, label),
    CHOICE("Kind", Fitting, kind, fitting_words),
    FIELD(DETAIL_SIZE, "Size", Fitting, size),
    OPTIONAL_IF("Stands in", Fitting, hole, RECORD_HOLE, fitting_is_no_clamp),
    OPTIONAL_IF("Slides in", Fitting, slot, RECORD_RECESS, fitting_is_clamp),
    OPTIONAL("Station", Fitting, station, RECORD_STATION),
    FIELD_IF(DETAIL_PART_HOLE, "Through the part's", Fitting, part_hole, fitting_goes_through),
    PLACE_IF(Fitting, at, fitting_is_clamp),
    FIELD_IF(DETAIL_ANGLE, "Pushes towards", Fitting, rotation, fitting_is_clamp),
    FIELD_IF(DETAIL_LENGTH, "Diameter", Fitting, diameter, fitting_is_no_clamp),
    FIELD_IF(DETAIL_LENGTH, "Upper limit", Fitting, upper, fitting_is_no_clamp),
    FIELD_IF(DETAIL_LENGTH, "Lower limit", Fitting, lower, fitting_is_no_clamp),
    FIELD_IF(DETAIL_LENGTH, "Length", Fitting, length, fitting_is_no_clamp),
    FIELD_IF(DETAIL_LENGTH, "Length", Fitting, length, fitting_is_clamp),
    FIELD_IF(DETAIL_LENGTH, "Width", Fitting, width, fitting_is_clamp),
    FIELD_IF(DETAIL_LENGTH, "Head diameter", Fitting, head_diameter, fitting_is_no_clamp),
    FIELD_IF(DETAIL_LENGTH, "Head height", Fitting, head_height, fitting_is_no_clamp),
    FIELD_IF(DETAIL_LENGTH, "Height above the face", Fitting, head_height, fitting_is_clamp),
    FIELD_IF(DETAIL_LENGTH, "Least travel", Fitting, travel_least, fitting_is_clamp),
    FIELD_IF(DETAIL_LENGTH, "Greatest travel", Fitting, travel_greatest, fitting_is_clamp),
    FIELD_IF(DETAIL_NUMBER, "Force, N", Fitting, force, fitting_is_clamp),
    FIELD(DETAIL_BOOL, "Made already", Fitting, made),
};
DETAIL_TABLE(detail_fitting, fitting_fields);
