#include "plate/fitting.h"

#include "plate/record.h"

static const char *const kinds[] = {"shoulder-screw", "dowel",      "relieved-pin",
                                    "hold-down",      "edge-clamp", NULL};

#define MAY_BE(key_, member)                                                              \
    {                                                                                     \
        .key = key_, FIELD_LENGTH, offsetof(Fitting, member), .greatest = LENGTH_GREATEST \
    }

static const Field fitting_fields[] = {
    {.key = "kind", FIELD_CHOICE, offsetof(Fitting, kind), .choices = kinds, .needed = true},
    {.key = "station",
     FIELD_REFERENCE,
     offsetof(Fitting, station),
     .refers_to = REFERS_TO(RECORD_STATION)},
    {.key = "hole", FIELD_REFERENCE, offsetof(Fitting, hole), .refers_to = REFERS_TO(RECORD_HOLE)},
    {.key = "slot",
     FIELD_REFERENCE,
     offsetof(Fitting, slot),
     .refers_to = REFERS_TO(RECORD_RECESS)},
    {.key = "part_hole", FIELD_COUNT, offsetof(Fitting, part_hole)},
    {.key = "at", FIELD_PLACE, offsetof(Fitting, at)},
    {.key = "rotation", FIELD_ANGLE, offsetof(Fitting, rotation)},
    {.key = "size", FIELD_TEXT, offsetof(Fitting, size)},
    MAY_BE("diameter", diameter),
    {.key = "upper", FIELD_LENGTH, offsetof(Fitting, upper)},
    {.key = "lower", FIELD_LENGTH, offsetof(Fitting, lower)},
    MAY_BE("length", length),
    MAY_BE("width", width),
    MAY_BE("head_diameter", head_diameter),
    MAY_BE("head_height", head_height),
    MAY_BE("travel_least", travel_least),
    MAY_BE("travel_greatest", travel_greatest),
    {.key = "force", FIELD_NUMBER, offsetof(Fitting, force), .greatest = INT64_MAX / 4},
    {.key = "label", FIELD_TEXT, offsetof(Fitting, label)},
    {.key = "made", FIELD_BOOL, offsetof(Fitting, made)},
    {.key = "", FIELD_UNKNOWN, offsetof(Fitting, unknown)},
};
const Schema fitting_schema = {"fitting", sizeof(Fitting), fitting_fields,
                               G_N_ELEMENTS(fitting_fields)};

bool fitting_locates(const Fitting *fitting)
{
    return fitting->kind == FITTING_SHOULDER_SCREW || fitting->kind == FITTING_DOWEL ||
           fitting->kind == FITTING_RELIEVED_PIN;
}

bool fitting_holds_down(const Fitting *fitting)
{
    return fitting->kind == FITTING_SHOULDER_SCREW || fitting->kind == FITTING_HOLD_DOWN;
}
