#include "plate/settings.h"

#include "plate/record.h"

static const char *const units[] = {"inch", "mm", NULL};
static const char *const projections[] = {"third-angle", "first-angle", NULL};
static const char *const standards[] = {"iso", "asme", NULL};
static const char *const datum_kinds[] = {"corner", "hole", "point", NULL};
static const char *const corners[] = {"front-left", "front-right", "back-right", "back-left", NULL};
static const char *const metals[] = {"aluminium", "steel", NULL};

static const Field stock_fields[] = {
    {.key = "length",
     FIELD_LENGTH,
     offsetof(Stock, length),
     .least = LENGTH_UM,
     .greatest = LENGTH_GREATEST,
     .needed = true},
    {.key = "width",
     FIELD_LENGTH,
     offsetof(Stock, width),
     .least = LENGTH_UM,
     .greatest = LENGTH_GREATEST,
     .needed = true},
    {.key = "thickness",
     FIELD_LENGTH,
     offsetof(Stock, thickness),
     .least = LENGTH_UM,
     .greatest = LENGTH_GREATEST,
     .needed = true},
    {.key = "metal", FIELD_CHOICE, offsetof(Stock, metal), .choices = metals, .needed = true},
    {.key = "material", FIELD_TEXT, offsetof(Stock, material)},
};
static const Schema stock_schema = {"stock", sizeof(Stock), stock_fields,
                                    G_N_ELEMENTS(stock_fields)};

static const Field datum_fields[] = {
    {.key = "kind", FIELD_CHOICE, offsetof(Datum, kind), .choices = datum_kinds, .needed = true},
    {.key = "corner", FIELD_CHOICE, offsetof(Datum, corner), .choices = corners},
    {.key = "hole",
     FIELD_REFERENCE,
     offsetof(Datum, hole),
     .refers_to = REFERS_TO(RECORD_HOLE),
     .weak = true},
    {.key = "at", FIELD_PLACE, offsetof(Datum, at)},
};
static const Schema datum_schema = {"datum", sizeof(Datum), datum_fields,
                                    G_N_ELEMENTS(datum_fields)};

#define MAY_BE(key_, member)                                                              \
    {                                                                                     \
        .key = key_, FIELD_LENGTH, offsetof(Machine, member), .greatest = LENGTH_GREATEST \
    }

static const Field machine_fields[] = {
    {.key = "name", FIELD_TEXT, offsetof(Machine, name)},
    MAY_BE("travel_x", travel_x),
    MAY_BE("travel_y", travel_y),
    MAY_BE("travel_z", travel_z),
    {.key = "plate_at", FIELD_PLACE, offsetof(Machine, plate_at)},
    MAY_BE("daylight", daylight),
};
static const Schema machine_schema = {"machine", sizeof(Machine), machine_fields,
                                      G_N_ELEMENTS(machine_fields)};

static const Field limit_fields[] = {
    {.key = "rule", FIELD_TEXT, offsetof(ChangedLimit, rule), .needed = true},
    {.key = "limit", FIELD_TEXT, offsetof(ChangedLimit, limit), .needed = true},
    {.key = "value", FIELD_NUMBER, offsetof(ChangedLimit, value), .needed = true},
    {.key = "", FIELD_UNKNOWN, offsetof(ChangedLimit, unknown)},
};
static const Schema limit_schema = {"limit", sizeof(ChangedLimit), limit_fields,
                                    G_N_ELEMENTS(limit_fields)};

static const Field accepted_fields[] = {
    {.key = "rule", FIELD_TEXT, offsetof(AcceptedFinding, rule), .needed = true},
    /* No reference in the strict sense: an accepted finding may outlive its features. */
    {.key = "features", FIELD_REFERENCES, offsetof(AcceptedFinding, features)},
    {.key = "reason", FIELD_TEXT, offsetof(AcceptedFinding, reason)},
    {.key = "date", FIELD_TEXT, offsetof(AcceptedFinding, date)},
    {.key = "", FIELD_UNKNOWN, offsetof(AcceptedFinding, unknown)},
};
static const Schema accepted_schema = {"accepted finding", sizeof(AcceptedFinding), accepted_fields,
                                       G_N_ELEMENTS(accepted_fields)};

static const Field revision_fields[] = {
    {.key = "letter", FIELD_TEXT, offsetof(Revision, letter), .needed = true},
    {.key = "what", FIELD_TEXT, offsetof(Revision, what)},
    {.key = "date", FIELD_TEXT, offsetof(Revision, date)},
    {.key = "who", FIELD_TEXT, offsetof(Revision, who)},
    {.key = "", FIELD_UNKNOWN, offsetof(Revision, unknown)},
};
static const Schema revision_schema = {"revision", sizeof(Revision), revision_fields,
                                       G_N_ELEMENTS(revision_fields)};

static const Field settings_fields[] = {
    {.key = "name", FIELD_TEXT, offsetof(Settings, name)},
    {.key = "number", FIELD_TEXT, offsetof(Settings, number)},
    {.key = "revision", FIELD_TEXT, offsetof(Settings, revision)},
    {.key = "shop", FIELD_TEXT, offsetof(Settings, shop)},
    {.key = "drawn", FIELD_TEXT, offsetof(Settings, drawn)},
    {.key = "date", FIELD_TEXT, offsetof(Settings, date)},
    {.key = "note", FIELD_TEXT, offsetof(Settings, note)},
    {.key = "tolerance", FIELD_TEXT, offsetof(Settings, tolerance)},
    {.key = "roughness", FIELD_TEXT, offsetof(Settings, roughness)},
    {.key = "edges", FIELD_TEXT, offsetof(Settings, edges)},
    {.key = "unit", FIELD_CHOICE, offsetof(Settings, unit), .choices = units, .needed = true},
    {.key = "projection", FIELD_CHOICE, offsetof(Settings, projection), .choices = projections},
    {.key = "standard", FIELD_CHOICE, offsetof(Settings, standard), .choices = standards},
    {.key = "stock", FIELD_GROUP, offsetof(Settings, stock), .of = &stock_schema, .needed = true},
    {.key = "datum", FIELD_GROUP, offsetof(Settings, datum), .of = &datum_schema, .needed = true},
    {.key = "machine", FIELD_GROUP, offsetof(Settings, machine), .of = &machine_schema},
    {.key = "limits", FIELD_LIST, offsetof(Settings, limits), .of = &limit_schema},
    {.key = "accepted", FIELD_LIST, offsetof(Settings, accepted), .of = &accepted_schema},
    {.key = "revisions", FIELD_LIST, offsetof(Settings, revisions), .of = &revision_schema},
    {.key = "", FIELD_UNKNOWN, offsetof(Settings, unknown)},
};
const Schema settings_schema = {"plate", sizeof(Settings), settings_fields,
                                G_N_ELEMENTS(settings_fields)};
