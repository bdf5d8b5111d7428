#include "plate/station.h"

#include "plate/record.h"

static const Field station_fields[] = {
    {.key = "face",
     FIELD_REFERENCE,
     offsetof(Station, face),
     .refers_to = REFERS_TO(RECORD_FACE),
     .needed = true},
    {.key = "part",
     FIELD_REFERENCE,
     offsetof(Station, part),
     .refers_to = REFERS_TO(RECORD_PART),
     .needed = true},
    {.key = "at", FIELD_PLACE, offsetof(Station, at), .needed = true},
    {.key = "rotation", FIELD_ANGLE, offsetof(Station, rotation)},
    {.key = "turned_over", FIELD_BOOL, offsetof(Station, turned_over)},
    {.key = "label", FIELD_TEXT, offsetof(Station, label)},
    {.key = "mirror_of",
     FIELD_REFERENCE,
     offsetof(Station, mirror_of),
     .refers_to = REFERS_TO(RECORD_STATION),
     .weak = true},
    {.key = "instead_of",
     FIELD_REFERENCES,
     offsetof(Station, instead_of),
     .refers_to = REFERS_TO(RECORD_STATION),
     .weak = true},
    {.key = "made", FIELD_BOOL, offsetof(Station, made)},
    {.key = "locked", FIELD_BOOL, offsetof(Station, locked)},
    {.key = "", FIELD_UNKNOWN, offsetof(Station, unknown)},
};
const Schema station_schema = {"station", sizeof(Station), station_fields,
                               G_N_ELEMENTS(station_fields)};
