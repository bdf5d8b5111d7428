#include "plate/operation.h"

#include "plate/record.h"

static const char *const kinds[] = {"making", "running", NULL};
static const char *const wheres[] = {"outline-outside", "outline-inside", "bevel", "holes", NULL};

#define MAY_BE(key_, member)                                                           \
    {                                                                                  \
        .key = key_, FIELD_LENGTH, offsetof(Pass, member), .greatest = LENGTH_GREATEST \
    }

static const Field pass_fields[] = {
    {.key = "name", FIELD_TEXT, offsetof(Pass, name)},
    {.key = "where", FIELD_CHOICE, offsetof(Pass, where), .choices = wheres, .needed = true},
    MAY_BE("cutter_diameter", cutter_diameter),
    MAY_BE("flute_length", flute_length),
    MAY_BE("corner_radius", corner_radius),
    MAY_BE("holder_diameter", holder_diameter),
    MAY_BE("gauge_length", gauge_length),
    MAY_BE("depth_below", depth_below),
    {.key = "point", FIELD_ANGLE, offsetof(Pass, point)},
    MAY_BE("stock_left", stock_left),
    {.key = "force", FIELD_NUMBER, offsetof(Pass, force), .greatest = INT64_MAX / 4},
    {.key = "", FIELD_UNKNOWN, offsetof(Pass, unknown)},
};
static const Schema pass_schema = {"pass", sizeof(Pass), pass_fields, G_N_ELEMENTS(pass_fields)};

static const Field operation_fields[] = {
    {.key = "name", FIELD_TEXT, offsetof(Operation, name), .needed = true},
    {.key = "kind", FIELD_CHOICE, offsetof(Operation, kind), .choices = kinds, .needed = true},
    {.key = "order", FIELD_COUNT, offsetof(Operation, order)},
    {.key = "face",
     FIELD_REFERENCE,
     offsetof(Operation, face),
     .refers_to = REFERS_TO(RECORD_FACE),
     .weak = true},
    {.key = "stations",
     FIELD_REFERENCES,
     offsetof(Operation, stations),
     .refers_to = REFERS_TO(RECORD_STATION),
     .weak = true},
    {.key = "fitted",
     FIELD_REFERENCES,
     offsetof(Operation, fitted),
     .refers_to = REFERS_TO(RECORD_FITTING),
     .weak = true},
    {.key = "passes", FIELD_LIST, offsetof(Operation, passes), .of = &pass_schema},
    {.key = "note", FIELD_TEXT, offsetof(Operation, note)},
    {.key = "", FIELD_UNKNOWN, offsetof(Operation, unknown)},
};
const Schema operation_schema = {"operation", sizeof(Operation), operation_fields,
                                 G_N_ELEMENTS(operation_fields)};

static bool names(const List *ids, FeatureId id)
{
    for (uint32_t i = 0; i < ids->count; i++)
        if (*LIST_AT(ids, FeatureId, i) == id)
            return true;
    return false;
}

bool operation_runs(const Operation *operation, FeatureId station, FeatureId face)
{
    if (operation->kind != OPERATION_RUNNING)
        return false;
    if (operation->stations.count > 0)
        return names(&operation->stations, station);
    return !operation->face || operation->face == face;
}

bool operation_has_fitted(const Operation *operation, FeatureId fitting)
{
    return names(&operation->fitted, fitting);
}

bool operation_has_pass(const Operation *operation, int where)
{
    for (uint32_t i = 0; i < operation->passes.count; i++)
        if (LIST_AT(&operation->passes, Pass, i)->where == where)
            return true;
    return false;
}
