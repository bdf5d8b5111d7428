#include "plate/hole.h"

#include "plate/record.h"

static const char *const step_kinds[] = {"spot", "drill", "counterbore", "countersink",
                                         "ream", "tap",   "bore",        NULL};

static const char *const step_taps[] = {"unstated",     "plug",    "bottoming",
                                        "spiral-flute", "forming", NULL};

static const Field step_fields[] = {
    {.key = "kind", FIELD_CHOICE, offsetof(Step, kind), .choices = step_kinds, .needed = true},
    {.key = "diameter",
     FIELD_LENGTH,
     offsetof(Step, diameter),
     .least = LENGTH_UM,
     .greatest = LENGTH_GREATEST,
     .needed = true},
    {.key = "depth", FIELD_LENGTH, offsetof(Step, depth), .greatest = LENGTH_GREATEST},
    {.key = "through", FIELD_BOOL, offsetof(Step, through)},
    {.key = "point", FIELD_ANGLE, offsetof(Step, point)},
    {.key = "thread", FIELD_TEXT, offsetof(Step, thread)},
    {.key = "tap", FIELD_CHOICE, offsetof(Step, tap), .choices = step_taps},
    {.key = "upper", FIELD_LENGTH, offsetof(Step, upper)},
    {.key = "lower", FIELD_LENGTH, offsetof(Step, lower)},
    {.key = "", FIELD_UNKNOWN, offsetof(Step, unknown)},
};
static const Schema step_schema = {"step", sizeof(Step), step_fields, G_N_ELEMENTS(step_fields)};

static const Field hole_fields[] = {
    {.key = "face",
     FIELD_REFERENCE,
     offsetof(Hole, face),
     .refers_to = REFERS_TO(RECORD_FACE),
     .needed = true},
    {.key = "station",
     FIELD_REFERENCE,
     offsetof(Hole, station),
     .refers_to = REFERS_TO(RECORD_STATION)},
    {.key = "at", FIELD_PLACE, offsetof(Hole, at), .needed = true},
    {.key = "steps", FIELD_LIST, offsetof(Hole, steps), .of = &step_schema, .needed = true},
    {.key = "label", FIELD_TEXT, offsetof(Hole, label)},
    {.key = "position_tolerance",
     FIELD_LENGTH,
     offsetof(Hole, position_tolerance),
     .greatest = LENGTH_GREATEST},
    {.key = "operation",
     FIELD_REFERENCE,
     offsetof(Hole, operation),
     .refers_to = REFERS_TO(RECORD_OPERATION),
     .weak = true},
    {.key = "made", FIELD_BOOL, offsetof(Hole, made)},
    {.key = "locked", FIELD_BOOL, offsetof(Hole, locked)},
    {.key = "note", FIELD_TEXT, offsetof(Hole, note)},
    {.key = "", FIELD_UNKNOWN, offsetof(Hole, unknown)},
};
const Schema hole_schema = {"hole", sizeof(Hole), hole_fields, G_N_ELEMENTS(hole_fields)};

const char *step_kind_name(int kind)
{
    return step_kinds[kind];
}

Length hole_largest_diameter(const Hole *hole)
{
    Length largest = 0;
    for (uint32_t i = 0; i < hole->steps.count; i++)
        largest = MAX(largest, LIST_AT(&hole->steps, Step, i)->diameter);
    return largest;
}
