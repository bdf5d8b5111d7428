#include "plate/recess.h"

#include "plate/record.h"

static const char *const kinds[] = {"obround", "rectangle", "nest", "blank-nest", NULL};

static const Field recess_fields[] = {
    {.key = "kind", FIELD_CHOICE, offsetof(Recess, kind), .choices = kinds, .needed = true},
    {.key = "face",
     FIELD_REFERENCE,
     offsetof(Recess, face),
     .refers_to = REFERS_TO(RECORD_FACE),
     .needed = true},
    {.key = "station",
     FIELD_REFERENCE,
     offsetof(Recess, station),
     .refers_to = REFERS_TO(RECORD_STATION)},
    {.key = "at", FIELD_PLACE, offsetof(Recess, at), .needed = true},
    {.key = "rotation", FIELD_ANGLE, offsetof(Recess, rotation)},
    {.key = "length", FIELD_LENGTH, offsetof(Recess, length), .greatest = LENGTH_GREATEST},
    {.key = "width", FIELD_LENGTH, offsetof(Recess, width), .greatest = LENGTH_GREATEST},
    {.key = "corner_radius",
     FIELD_LENGTH,
     offsetof(Recess, corner_radius),
     .greatest = LENGTH_GREATEST},
    {.key = "clearance", FIELD_LENGTH, offsetof(Recess, clearance), .greatest = LENGTH_GREATEST},
    {.key = "depth", FIELD_LENGTH, offsetof(Recess, depth), .greatest = LENGTH_GREATEST},
    {.key = "through", FIELD_BOOL, offsetof(Recess, through)},
    {.key = "label", FIELD_TEXT, offsetof(Recess, label)},
    {.key = "operation",
     FIELD_REFERENCE,
     offsetof(Recess, operation),
     .refers_to = REFERS_TO(RECORD_OPERATION),
     .weak = true},
    {.key = "made", FIELD_BOOL, offsetof(Recess, made)},
    {.key = "locked", FIELD_BOOL, offsetof(Recess, locked)},
    {.key = "", FIELD_UNKNOWN, offsetof(Recess, unknown)},
};
const Schema recess_schema = {"recess", sizeof(Recess), recess_fields, G_N_ELEMENTS(recess_fields)};
