#include "plate/face.h"

#include "plate/record.h"

static const char *const kinds[] = {"top", "inclined", NULL};

static const Field face_fields[] = {
    {.key = "name", FIELD_TEXT, offsetof(Face, name), .needed = true},
    {.key = "kind", FIELD_CHOICE, offsetof(Face, kind), .choices = kinds, .needed = true},
    {.key = "from", FIELD_PLACE, offsetof(Face, from)},
    {.key = "to", FIELD_PLACE, offsetof(Face, to)},
    {.key = "angle", FIELD_ANGLE, offsetof(Face, angle)},
    {.key = "extent", FIELD_LENGTH, offsetof(Face, extent), .greatest = LENGTH_GREATEST},
    {.key = "reference_hole",
     FIELD_REFERENCE,
     offsetof(Face, reference_hole),
     .refers_to = REFERS_TO(RECORD_HOLE),
     .weak = true},
    {.key = "", FIELD_UNKNOWN, offsetof(Face, unknown)},
};
const Schema face_schema = {"face", sizeof(Face), face_fields, G_N_ELEMENTS(face_fields)};
