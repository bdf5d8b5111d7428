#include "plate/base.h"

static const char *const seat_kinds[] = {"round-pin", "relieved-pin", "bush",
                                         "pull-down", "pry-slot",     NULL};

static const Field seat_fields[] = {
    {.key = "kind", FIELD_CHOICE, offsetof(BaseSeat, kind), .choices = seat_kinds, .needed = true},
    {.key = "at", FIELD_PLACE, offsetof(BaseSeat, at), .needed = true},
    {.key = "diameter", FIELD_LENGTH, offsetof(BaseSeat, diameter), .greatest = LENGTH_GREATEST},
    {.key = "depth", FIELD_LENGTH, offsetof(BaseSeat, depth), .greatest = LENGTH_GREATEST},
    {.key = "", FIELD_UNKNOWN, offsetof(BaseSeat, unknown)},
};
static const Schema seat_schema = {"seat", sizeof(BaseSeat), seat_fields,
                                   G_N_ELEMENTS(seat_fields)};

static const Field base_fields[] = {
    {.key = "name", FIELD_TEXT, offsetof(Base, name), .needed = true},
    {.key = "repeatability",
     FIELD_LENGTH,
     offsetof(Base, repeatability),
     .greatest = LENGTH_GREATEST},
    {.key = "seats", FIELD_LIST, offsetof(Base, seats), .of = &seat_schema},
    {.key = "", FIELD_UNKNOWN, offsetof(Base, unknown)},
};
const Schema base_schema = {"base", sizeof(Base), base_fields, G_N_ELEMENTS(base_fields)};
