/* The figures of operations and their passes. */
#include "editor/detail-fields-private.h"

static const char *const kind_words[] = {N_("makes the plate"), N_("runs parts"), NULL};
static const char *const where_words[] = {N_("outline, outside"), N_("outline, inside"),
                                          N_("bevel"), N_("holes"), NULL};

static bool goes_down_holes(const void *body)
{
    return ((const Pass *)body)->where == PASS_HOLES;
}

static const DetailField pass_fields[] = {
    FIELD(DETAIL_TEXT, "Name", Pass, name),
    CHOICE("Where", Pass, where, where_words),
    FIELD(DETAIL_LENGTH, "Cutter diameter", Pass, cutter_diameter),
    FIELD(DETAIL_LENGTH, "Flute length", Pass, flute_length),
    FIELD(DETAIL_LENGTH, "Corner radius", Pass, corner_radius),
    FIELD(DETAIL_LENGTH, "Holder diameter", Pass, holder_diameter),
    FIELD(DETAIL_LENGTH, "Holder to tip", Pass, gauge_length),
    FIELD(DETAIL_LENGTH, "Depth below the part", Pass, depth_below),
    FIELD_IF(DETAIL_ANGLE, "Point angle", Pass, point, goes_down_holes),
    FIELD(DETAIL_LENGTH, "Stock left", Pass, stock_left),
    FIELD(DETAIL_NUMBER, "Cutting force, N", Pass, force),
};

static void begin_pass(const Plate *plate, Record *record, void *item)
{
    bool inch = plate_settings(plate)->unit == PLATE_INCH;
    Pass *pass = item;
    pass->cutter_diameter = inch ? LENGTH_INCH / 4 : 6 * LENGTH_MM;
    pass->flute_length = inch ? LENGTH_INCH * 3 / 4 : 20 * LENGTH_MM;
}

static const DetailList passes = {
    .offset = offsetof(Operation, passes),
    .size = sizeof(Pass),
    .fields = pass_fields,
    .count = G_N_ELEMENTS(pass_fields),
    .heading = N_("Pass %u"),
    .add = N_("Add a pass"),
    .take_away = N_("Take this pass away"),
    .most = 50,
    .ordered = true,
    .begin = begin_pass,
};

static bool runs_parts(const void *body)
{
    return ((const Operation *)body)->kind == OPERATION_RUNNING;
}

static const DetailField operation_fields[] = {
    FIELD(DETAIL_TEXT, "Name", Operation, name),
    CHOICE("It", Operation, kind, kind_words),
    OPTIONAL("Face", Operation, face, RECORD_FACE),
    HEADING_IF("Stations (none: all on the face)", runs_parts),
    RECORDS_IF("", Operation, stations, RECORD_STATION, runs_parts),
    HEADING_IF("Fitted meanwhile (none: not said)", runs_parts),
    RECORDS_IF("", Operation, fitted, RECORD_FITTING, runs_parts),
    LIST_IF(passes, runs_parts),
    HEADING("More"),
    FIELD(DETAIL_TEXT, "Note", Operation, note),
};
DETAIL_TABLE(detail_operation, operation_fields);
