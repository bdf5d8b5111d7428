#include "command/named.h"

/* The name of a record of a kind, or NULL. */
static const char *name_of(const Record *record, RecordKind kind)
{
    if (record->kind != kind)
        return NULL;
    return kind == RECORD_FACE ? record->face.name : record->operation.name;
}

static bool find(const Plate *plate, RecordKind kind, const char *name, FeatureId *id, Error *error)
{
    char *wanted = g_utf8_casefold(name, -1);
    GString *names = g_string_new(NULL);
    *id = ID_NONE;
    for (uint32_t i = 0; i < plate_count(plate) && !*id; i++) {
        const char *own = name_of(plate_at(plate, i), kind);
        if (!own)
            continue;
        char *folded = g_utf8_casefold(own, -1);
        if (g_strcmp0(folded, wanted) == 0)
            *id = plate_at(plate, i)->id;
        if (names->len < 200)
            g_string_append_printf(names, "%s%s", names->len ? ", " : "", own);
        g_free(folded);
    }
    if (!*id)
        error_set(error, ERROR_MISSING, kind == RECORD_FACE ? "--face" : "--operation",
                  "the plate has no \"%.60s\"; it has: %s", name, names->len ? names->str : "none");
    g_string_free(names, TRUE);
    g_free(wanted);
    return *id != ID_NONE;
}

bool face_named(const Plate *plate, const char *name, FeatureId *face, Error *error)
{
    return find(plate, RECORD_FACE, name, face, error);
}

bool operation_named(const Plate *plate, const char *name, FeatureId *operation, Error *error)
{
    return find(plate, RECORD_OPERATION, name, operation, error);
}
