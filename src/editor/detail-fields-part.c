/* The figures of parts and stations. */
#include "editor/detail-fields-private.h"

static const DetailField part_hole_fields[] = {
    FIELD(DETAIL_TEXT, "Name", PartHole, name),
    FIELD(DETAIL_LENGTH, "Diameter", PartHole, diameter),
    FIELD(DETAIL_LENGTH, "Upper limit", PartHole, upper),
    FIELD(DETAIL_LENGTH, "Lower limit", PartHole, lower),
    PLACE(PartHole, at),
    FIELD(DETAIL_LENGTH, "Position tolerance", PartHole, position_tolerance),
};

static void begin_part_hole(const Plate *plate, Record *record, void *item)
{
    PartHole *hole = item;
    hole->diameter = plate_settings(plate)->unit == PLATE_INCH ? LENGTH_INCH / 8 : 3 * LENGTH_MM;
}

static const DetailList part_holes = {
    .offset = offsetof(Part, holes),
    .size = sizeof(PartHole),
    .fields = part_hole_fields,
    .count = G_N_ELEMENTS(part_hole_fields),
    .heading = N_("Hole %u of the part"),
    .add = N_("Add a hole to the part"),
    .take_away = N_("Take this hole away"),
    .most = 200,
    .begin = begin_part_hole,
};

static bool has_bevel(const void *body)
{
    return ((const Part *)body)->bevel.angle > 0;
}

static const DetailField part_fields[] = {
    FIELD(DETAIL_TEXT, "Name", Part, name),
    FIELD(DETAIL_TEXT, "Number", Part, number),
    FIELD(DETAIL_TEXT, "Material", Part, material),
    FIELD(DETAIL_LENGTH, "Thickness", Part, thickness),
    FIELD(DETAIL_LENGTH, "Thickness ±", Part, thickness_tolerance),
    FIELD(DETAIL_SIGNED, "Growth in heat treatment, %", Part, growth),
    HEADING("Blank"),
    FIELD(DETAIL_LENGTH, "Length", Part, blank.length),
    FIELD(DETAIL_LENGTH, "Width", Part, blank.width),
    FIELD(DETAIL_LENGTH, "Thickness", Part, blank.thickness),
    FIELD(DETAIL_LENGTH, "Left edge, X", Part, blank.at.x),
    FIELD(DETAIL_LENGTH, "Lower edge, Y", Part, blank.at.y),
    HEADING("Bevel"),
    FIELD(DETAIL_ANGLE, "Angle a side", Part, bevel.angle),
    FIELD_IF(DETAIL_LENGTH, "Edge thickness", Part, bevel.edge_thickness, has_bevel),
    FIELD_IF(DETAIL_BOOL, "Both sides", Part, bevel.both_sides, has_bevel),
    HEADING_IF("Bevel edge, first end", has_bevel),
    PLACE_IF(Part, bevel.from, has_bevel),
    HEADING_IF("Bevel edge, second end", has_bevel),
    PLACE_IF(Part, bevel.to, has_bevel),
    LIST(part_holes),
};
DETAIL_TABLE(detail_part, part_fields);

static const DetailField station_fields[] = {
    FIELD(DETAIL_TEXT, "Label", Station, label),
    RECORD("Part", Station, part, RECORD_PART),
    RECORD("Face", Station, face, RECORD_FACE),
    PLACE(Station, at),
    FIELD(DETAIL_ANGLE, "Rotation", Station, rotation),
    FIELD(DETAIL_BOOL, "Turned over", Station, turned_over),
    OPTIONAL("Other side of", Station, mirror_of, RECORD_STATION),
    FIELD(DETAIL_BOOL, "Locked", Station, locked),
    FIELD(DETAIL_BOOL, "Made already", Station, made),
};
DETAIL_TABLE(detail_station, station_fields);
