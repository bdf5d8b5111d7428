#include "editor/detail-fields.h"

#include "editor/intl.h"

#include <stddef.h>

#define HEADING(text)                            \
    {                                            \
        .kind = DETAIL_HEADING, .name = N_(text) \
    }
#define FIELD(what, text, type, member)                                  \
    {                                                                    \
        .kind = what, .name = N_(text), .offset = offsetof(type, member) \
    }
#define FIELD_IF(what, text, type, member, test)                                          \
    {                                                                                     \
        .kind = what, .name = N_(text), .offset = offsetof(type, member), .applies = test \
    }
#define CHOICE(text, type, member, words)                                          \
    {                                                                              \
        .kind = DETAIL_CHOICE, .name = N_(text), .offset = offsetof(type, member), \
        .choices = words                                                           \
    }

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
    {.kind = DETAIL_CHOICE,
     .name = N_("Corner"),
     .offset = offsetof(Settings, datum.corner),
     .choices = corner_words,
     .applies = datum_is_corner},
    {.kind = DETAIL_RECORD,
     .name = N_("Hole"),
     .offset = offsetof(Settings, datum.hole),
     .applies = datum_is_hole,
     .of = RECORD_HOLE},
    FIELD_IF(DETAIL_LENGTH, "X from front left", Settings, datum.at.x, datum_is_point),
    FIELD_IF(DETAIL_LENGTH, "Y from front left", Settings, datum.at.y, datum_is_point),
    HEADING("Drawing"),
    CHOICE("Unit", Settings, unit, unit_words),
    CHOICE("Projection", Settings, projection, projection_words),
    CHOICE("Dimensions by", Settings, standard, standard_words),
    HEADING("Title block"),
    FIELD(DETAIL_TEXT, "Number", Settings, number),
    FIELD(DETAIL_TEXT, "Revision", Settings, revision),
    FIELD(DETAIL_TEXT, "Shop", Settings, shop),
    FIELD(DETAIL_TEXT, "Drawn by", Settings, drawn),
    FIELD(DETAIL_TEXT, "Date of issue", Settings, date),
    FIELD(DETAIL_TEXT, "Note", Settings, note),
};

/* --- holes ------------------------------------------------------------------------------------ */

static const DetailField hole_fields[] = {
    FIELD(DETAIL_TEXT, "Label", Hole, label),
    FIELD(DETAIL_PLACE, "", Hole, at),
    {.kind = DETAIL_STEPS, .name = ""},
    HEADING("More"),
    FIELD(DETAIL_LENGTH, "Position tolerance", Hole, position_tolerance),
    FIELD(DETAIL_TEXT, "Note", Hole, note),
    FIELD(DETAIL_BOOL, "Locked", Hole, locked),
    FIELD(DETAIL_BOOL, "Made already", Hole, made),
};

static const char *const step_words[] = {N_("spot"),        N_("drill"), N_("counterbore"),
                                         N_("countersink"), N_("ream"),  N_("tap"),
                                         N_("bore"),        NULL};

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
    CHOICE("Step", Step, kind, step_words),
    FIELD_IF(DETAIL_THREAD, "Thread", Step, thread, step_is_tap),
    FIELD_IF(DETAIL_LENGTH, "Diameter", Step, diameter, step_is_no_tap),
    FIELD(DETAIL_BOOL, "Through the plate", Step, through),
    FIELD_IF(DETAIL_LENGTH, "Depth", Step, depth, step_has_depth),
    FIELD_IF(DETAIL_ANGLE, "Point angle", Step, point, step_has_point),
    FIELD_IF(DETAIL_LENGTH, "Upper limit", Step, upper, step_has_limits),
    FIELD_IF(DETAIL_LENGTH, "Lower limit", Step, lower, step_has_limits),
};

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

static const DetailField recess_fields[] = {
    FIELD(DETAIL_TEXT, "Label", Recess, label),
    CHOICE("Shape", Recess, kind, recess_words),
    FIELD_IF(DETAIL_PLACE, "", Recess, at, recess_is_slot),
    FIELD_IF(DETAIL_ANGLE, "Rotation", Recess, rotation, recess_is_slot),
    FIELD_IF(DETAIL_LENGTH, "Length over all", Recess, length, recess_is_slot),
    FIELD_IF(DETAIL_LENGTH, "Width", Recess, width, recess_is_slot),
    FIELD_IF(DETAIL_LENGTH, "Corner radius", Recess, corner_radius, recess_is_rectangle),
    {.kind = DETAIL_RECORD,
     .name = N_("Station"),
     .offset = offsetof(Recess, station),
     .applies = recess_is_nest,
     .of = RECORD_STATION},
    FIELD_IF(DETAIL_LENGTH, "Clearance", Recess, clearance, recess_is_nest),
    FIELD(DETAIL_BOOL, "Through the plate", Recess, through),
    FIELD_IF(DETAIL_LENGTH, "Depth", Recess, depth, recess_has_depth),
    FIELD(DETAIL_BOOL, "Locked", Recess, locked),
    FIELD(DETAIL_BOOL, "Made already", Recess, made),
};

/* --- stations and parts ----------------------------------------------------------------------- */

static const DetailField station_fields[] = {
    FIELD(DETAIL_TEXT, "Label", Station, label),
    {.kind = DETAIL_RECORD,
     .name = N_("Part"),
     .offset = offsetof(Station, part),
     .of = RECORD_PART},
    FIELD(DETAIL_PLACE, "", Station, at),
    FIELD(DETAIL_ANGLE, "Rotation", Station, rotation),
    FIELD(DETAIL_BOOL, "Turned over", Station, turned_over),
    FIELD(DETAIL_BOOL, "Locked", Station, locked),
    FIELD(DETAIL_BOOL, "Made already", Station, made),
};

static const DetailField part_fields[] = {
    FIELD(DETAIL_TEXT, "Name", Part, name),
    FIELD(DETAIL_TEXT, "Number", Part, number),
    FIELD(DETAIL_TEXT, "Material", Part, material),
    FIELD(DETAIL_LENGTH, "Thickness", Part, thickness),
    FIELD(DETAIL_LENGTH, "Thickness ±", Part, thickness_tolerance),
    HEADING("Blank"),
    FIELD(DETAIL_LENGTH, "Length", Part, blank.length),
    FIELD(DETAIL_LENGTH, "Width", Part, blank.width),
    FIELD(DETAIL_LENGTH, "Thickness", Part, blank.thickness),
    FIELD(DETAIL_LENGTH, "Left edge, X", Part, blank.at.x),
    FIELD(DETAIL_LENGTH, "Lower edge, Y", Part, blank.at.y),
    HEADING("Bevel"),
    FIELD(DETAIL_ANGLE, "Angle a side", Part, bevel.angle),
    FIELD(DETAIL_LENGTH, "Edge thickness", Part, bevel.edge_thickness),
    FIELD(DETAIL_BOOL, "Both sides", Part, bevel.both_sides),
};

static const DetailField part_hole_fields[] = {
    FIELD(DETAIL_TEXT, "Name", PartHole, name),
    FIELD(DETAIL_LENGTH, "Diameter", PartHole, diameter),
    FIELD(DETAIL_LENGTH, "Upper limit", PartHole, upper),
    FIELD(DETAIL_LENGTH, "Lower limit", PartHole, lower),
    FIELD(DETAIL_LENGTH, "X in the part", PartHole, at.x),
    FIELD(DETAIL_LENGTH, "Y in the part", PartHole, at.y),
};

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

static const DetailField fitting_fields[] = {
    FIELD(DETAIL_TEXT, "Label", Fitting, label),
    CHOICE("Kind", Fitting, kind, fitting_words),
    FIELD(DETAIL_SIZE, "Size", Fitting, size),
    {.kind = DETAIL_RECORD,
     .name = N_("Stands in"),
     .offset = offsetof(Fitting, hole),
     .applies = fitting_is_no_clamp,
     .of = RECORD_HOLE,
     .optional = true},
    {.kind = DETAIL_RECORD,
     .name = N_("Station"),
     .offset = offsetof(Fitting, station),
     .of = RECORD_STATION,
     .optional = true},
    FIELD_IF(DETAIL_PLACE, "", Fitting, at, fitting_is_clamp),
    FIELD_IF(DETAIL_ANGLE, "Pushes towards", Fitting, rotation, fitting_is_clamp),
    FIELD_IF(DETAIL_LENGTH, "Diameter", Fitting, diameter, fitting_is_no_clamp),
    FIELD_IF(DETAIL_LENGTH, "Upper limit", Fitting, upper, fitting_is_no_clamp),
    FIELD_IF(DETAIL_LENGTH, "Lower limit", Fitting, lower, fitting_is_no_clamp),
    FIELD(DETAIL_LENGTH, "Length", Fitting, length),
    FIELD_IF(DETAIL_LENGTH, "Width", Fitting, width, fitting_is_clamp),
    FIELD_IF(DETAIL_LENGTH, "Head diameter", Fitting, head_diameter, fitting_is_no_clamp),
    FIELD(DETAIL_LENGTH, "Height above", Fitting, head_height),
    FIELD_IF(DETAIL_LENGTH, "Least travel", Fitting, travel_least, fitting_is_clamp),
    FIELD_IF(DETAIL_LENGTH, "Greatest travel", Fitting, travel_greatest, fitting_is_clamp),
    FIELD_IF(DETAIL_NUMBER, "Force, N", Fitting, force, fitting_is_clamp),
};

static const DetailField keep_clear_fields[] = {
    FIELD(DETAIL_TEXT, "Why", KeepClear, name),
    FIELD(DETAIL_PLACE, "", KeepClear, at),
    FIELD(DETAIL_ANGLE, "Rotation", KeepClear, rotation),
    FIELD(DETAIL_LENGTH, "Length", KeepClear, length),
    FIELD(DETAIL_LENGTH, "Width", KeepClear, width),
    FIELD(DETAIL_LENGTH, "Corner radius", KeepClear, corner_radius),
    FIELD(DETAIL_LENGTH, "Height above", KeepClear, height),
    FIELD(DETAIL_LENGTH, "Depth below", KeepClear, depth),
    FIELD(DETAIL_BOOL, "Locked", KeepClear, locked),
};

#define FIELDS(kind, table) [kind] = {table, G_N_ELEMENTS(table)}

const DetailField *detail_fields(RecordKind kind, size_t *count)
{
    static const struct {
        const DetailField *fields;
        size_t count;
    } tables[RECORD_KINDS] = {
        FIELDS(RECORD_SETTINGS, settings_fields),
        FIELDS(RECORD_HOLE, hole_fields),
        FIELDS(RECORD_RECESS, recess_fields),
        FIELDS(RECORD_STATION, station_fields),
        FIELDS(RECORD_PART, part_fields),
        FIELDS(RECORD_FITTING, fitting_fields),
        FIELDS(RECORD_KEEP_CLEAR, keep_clear_fields),
    };
    *count = tables[kind].count;
    return tables[kind].fields;
}

const DetailField *detail_step_fields(size_t *count)
{
    *count = G_N_ELEMENTS(step_fields);
    return step_fields;
}

const DetailField *detail_part_hole_fields(size_t *count)
{
    *count = G_N_ELEMENTS(part_hole_fields);
    return part_hole_fields;
}

const char *detail_step_name(int kind)
{
    return kind >= 0 && kind <= STEP_BORE ? _(step_words[kind]) : "";
}
