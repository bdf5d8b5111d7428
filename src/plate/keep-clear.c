#include "plate/keep-clear.h"

#include "plate/record.h"

static const Field keep_clear_fields[] = {
    {.key = "face",
     FIELD_REFERENCE,
     offsetof(KeepClear, face),
     .refers_to = REFERS_TO(RECORD_FACE),
     .needed = true},
    {.key = "name", FIELD_TEXT, offsetof(KeepClear, name)},
    {.key = "at", FIELD_PLACE, offsetof(KeepClear, at), .needed = true},
    {.key = "rotation", FIELD_ANGLE, offsetof(KeepClear, rotation)},
    {.key = "length",
     FIELD_LENGTH,
     offsetof(KeepClear, length),
     .least = LENGTH_UM,
     .greatest = LENGTH_GREATEST,
     .needed = true},
    {.key = "width",
     FIELD_LENGTH,
     offsetof(KeepClear, width),
     .least = LENGTH_UM,
     .greatest = LENGTH_GREATEST,
     .needed = true},
    {.key = "corner_radius",
     FIELD_LENGTH,
     offsetof(KeepClear, corner_radius),
     .greatest = LENGTH_GREATEST},
    {.key = "height", FIELD_LENGTH, offsetof(KeepClear, height), .greatest = LENGTH_GREATEST},
    {.key = "depth", FIELD_LENGTH, offsetof(KeepClear, depth), .greatest = LENGTH_GREATEST},
    {.key = "locked", FIELD_BOOL, offsetof(KeepClear, locked)},
    {.key = "", FIELD_UNKNOWN, offsetof(KeepClear, unknown)},
};
const Schema keep_clear_schema = {"keep-clear", sizeof(KeepClear), keep_clear_fields,
                                  G_N_ELEMENTS(keep_clear_fields)};
