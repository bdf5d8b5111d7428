/* The figures of the plate as a whole: its settings, faces, base and keep-clears. */
#include "editor/detail-fields-private.h"

/* --- the plate -------------------------------------------------------------------------------- */

static const char *const unit_words[] = {N_("inch"), N_("millimetre"), NULL};
static const char *const projection_words[] = {N_("third angle"), N_("first angle"), NULL};
static const char *const standard_words[] = {N_("ISO 129-1"), N_("ASME Y14.5"), NULL};
static const char *const metal_words[] = {N_("aluminium"), N_("steel"), NULL};
static const char *const datum_words[] = {N_("a corner"), N_("a hole"), N_("a point"), NULL};
static const char *const corner_words[] = {N_("front left"), N_("front right"), N_("back right"),
                                           N_("back left"), NULL};

static bool datum_is_corner(const void *body)
{
    return ((const Settings *)body)->datum.kind == DATUM_CORNER;
}

static bool datum_is_hole(const void *body)
{
    return ((const Settings *)body)->datum.kind == DATUM_HOLE;
}

static bool datum_is_point(const void *body)
{
    return ((const Settings *)body)->datum.kind == DATUM_POINT;
}

static const DetailField revision_fields[] = {
    FIELD(DETAIL_TEXT, "Letter", Revision, letter),
    FIELD(DETAIL_TEXT, "What changed", Revision, what),
    FIELD(DETAIL_TEXT, "Date", Revision, date),
    FIELD(DETAIL_TEXT, "By", Revision, who),
};

/* The next letter, I, O and Q left out; the day it is. */
static void begin_revision(const Plate *plate, Record *record, void *item)
{
    static const char letters[] = "ABCDEFGHJKLMNPRSTUVWXYZ";
    Revision *revision = item;
    uint32_t number = record->settings.revisions.count - 1;
    GDateTime *now = g_date_time_new_now_local();
    revision->letter = g_strndup(&letters[number % (sizeof letters - 1)], 1);
    revision->date = g_date_time_format(now, "%Y-%m-%d");
    g_date_time_unref(now);
}

static const DetailList revisions = {
    .offset = offsetof(Settings, revisions),
    .size = sizeof(Revision),
    .fields = revision_fields,
    .count = G_N_ELEMENTS(revision_fields),
    .heading = N_("Revision %u"),
    .add = N_("Add a revision"),
    .take_away = N_("Take this revision away"),
    .most = 40,
    .begin = begin_revision,
};

static const DetailField settings_fields[] = {
    FIELD(DETAIL_TEXT, "Name", Settings, name),
    HEADING("Stock"),
    FIELD(DETAIL_LENGTH, "Length, along X", Settings, stock.length),
    FIELD(DETAIL_LENGTH, "Width, along Y", Settings, stock.width),
    FIELD(DETAIL_LENGTH, "Thickness", Settings, stock.thickness),
    CHOICE("Metal", Settings, stock.metal, metal_words),
    FIELD(DETAIL_TEXT, "Designation", Settings, stock.material),
    HEADING("Datum"),
    CHOICE("Measured from", Settings, datum.kind, datum_words),
    CHOICE_IF("Corner", Settings, datum.corner, corner_words, datum_is_corner),
    RECORD_IF("Hole", Settings, datum.hole, RECORD_HOLE, datum_is_hole),
    FIELD_IF(DETAIL_LENGTH, "X from front left", Settings, datum.at.x, datum_is_point),
    FIELD_IF(DETAIL_LENGTH, "Y from front left", Settings, datum.at.y, datum_is_point),
    HEADING("Drawing"),
    CHOICE("Unit", Settings, unit, unit_words),
    CHOICE("Projection", Settings, projection, projection_words),
    CHOICE("Dimensions by", Settings, standard, standard_words),
    FIELD(DETAIL_TEXT, "General tolerances", Settings, tolerance),
    FIELD(DETAIL_TEXT, "Roughness", Settings, roughness),
    FIELD(DETAIL_TEXT, "Edges", Settings, edges),
    HEADING("Machine"),
    FIELD(DETAIL_TEXT, "Its name", Settings, machine.name),
    FIELD(DETAIL_LENGTH, "Travel along X", Settings, machine.travel_x),
    FIELD(DETAIL_LENGTH, "Travel along Y", Settings, machine.travel_y),
    FIELD(DETAIL_LENGTH, "Travel along Z", Settings, machine.travel_z),
    FIELD(DETAIL_LENGTH, "Plate's corner along X", Settings, machine.plate_at.x),
    FIELD(DETAIL_LENGTH, "Plate's corner along Y", Settings, machine.plate_at.y),
    FIELD(DETAIL_LENGTH, "Base to spindle nose", Settings, machine.daylight),
    HEADING("Title block"),
    FIELD(DETAIL_TEXT, "Number", Settings, number),
    FIELD(DETAIL_TEXT, "Revision", Settings, revision),
    FIELD(DETAIL_TEXT, "Shop", Settings, shop),
    FIELD(DETAIL_TEXT, "Drawn by", Settings, drawn),
    FIELD(DETAIL_TEXT, "Date of issue", Settings, date),
    FIELD(DETAIL_TEXT, "Note", Settings, note),
    LIST(revisions),
};
DETAIL_TABLE(detail_settings, settings_fields);

/* --- faces ------------------------------------------------------------------------------------ */

static bool face_is_inclined(const void *body)
{
    return ((const Face *)body)->kind == FACE_INCLINED;
}

static const DetailField face_fields[] = {
    FIELD(DETAIL_TEXT, "Name", Face, name),
    FIELD_IF(DETAIL_ANGLE, "Angle below the top", Face, angle, face_is_inclined),
    FIELD_IF(DETAIL_LENGTH, "Extent down the slope", Face, extent, face_is_inclined),
    HEADING_IF("Break line, first end", face_is_inclined),
    PLACE_IF(Face, from, face_is_inclined),
    HEADING_IF("Break line, second end", face_is_inclined),
    PLACE_IF(Face, to, face_is_inclined),
    OPTIONAL_IF("Reference hole", Face, reference_hole, RECORD_HOLE, face_is_inclined),
};
DETAIL_TABLE(detail_face, face_fields);

/* --- the base --------------------------------------------------------------------------------- */

static const char *const seat_words[] = {N_("round pin"), N_("relieved pin"), N_("bush"),
                                         N_("pull-down"), N_("pry slot"),     NULL};

static const DetailField seat_fields[] = {
    CHOICE("Kind", BaseSeat, kind, seat_words),
    PLACE(BaseSeat, at),
    FIELD(DETAIL_LENGTH, "Diameter", BaseSeat, diameter),
    FIELD(DETAIL_LENGTH, "Depth into the plate", BaseSeat, depth),
};

static void begin_seat(const Plate *plate, Record *record, void *item)
{
    const List *seats = &record->base.seats;
    BaseSeat *seat = item;
    const Stock *stock = &plate_settings(plate)->stock;
    seat->at = (Place){stock->length / 2, stock->width / 2};
    seat->diameter = plate_settings(plate)->unit == PLATE_INCH ? LENGTH_INCH / 4 : 6 * LENGTH_MM;
    if (seats->count > 1)
        seat->kind = seats->count == 2 ? BASE_RELIEVED_PIN : BASE_PULL_DOWN;
}

static const DetailList seats = {
    .offset = offsetof(Base, seats),
    .size = sizeof(BaseSeat),
    .fields = seat_fields,
    .count = G_N_ELEMENTS(seat_fields),
    .heading = N_("Seat %u"),
    .add = N_("Add a seat"),
    .take_away = N_("Take this seat away"),
    .most = 100,
    .begin = begin_seat,
};

static const DetailField base_fields[] = {
    FIELD(DETAIL_TEXT, "Name", Base, name),
    FIELD(DETAIL_LENGTH, "Repeats within", Base, repeatability),
    LIST(seats),
};
DETAIL_TABLE(detail_base, base_fields);

/* --- keep-clears ------------------------------------------------------------------------------ */

static const DetailField keep_clear_fields[] = {
    FIELD(DETAIL_TEXT, "Why", KeepClear, name),
    PLACE(KeepClear, at),
    FIELD(DETAIL_ANGLE, "Rotation", KeepClear, rotation),
    FIELD(DETAIL_LENGTH, "Length", KeepClear, length),
    FIELD(DETAIL_LENGTH, "Width", KeepClear, width),
    FIELD(DETAIL_LENGTH, "Corner radius", KeepClear, corner_radius),
    FIELD(DETAIL_LENGTH, "Height above", KeepClear, height),
    FIELD(DETAIL_LENGTH, "Depth below", KeepClear, depth),
    RECORD("Face", KeepClear, face, RECORD_FACE),
    FIELD(DETAIL_BOOL, "Locked", KeepClear, locked),
};
DETAIL_TABLE(detail_keep_clear, keep_clear_fields);
