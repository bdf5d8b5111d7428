/* schema.h: the fields of a record, written down once.
 *
 * One table of fields for each struct of the model serves copying, freeing, comparing, reading,
 * writing and walking its references, so that a new field is one line and can be forgotten nowhere.
 */
#pragma once

#include "geometry/angle.h"
#include "geometry/error.h"
#include "geometry/length.h"
#include "plate/id.h"
#include "plate/json-text.h"

#include <glib.h>
#include <json-c/json.h>
#include <stdbool.h>

/* A place in the model: exact, from the origin of the face or of the part. */
typedef struct Place {
    Length x, y;
} Place;

/* Several of one struct, one after the other. Owned by the struct that holds it. */
typedef struct List {
    uint32_t count;
    void *items;
} List;

#define LIST_AT(list, Type, i) (&((Type *)(list)->items)[i])

typedef enum FieldKind {
    FIELD_REFERENCE,  /* FeatureId of another record, or ID_NONE */
    FIELD_REFERENCES, /* List of FeatureId */
    FIELD_LENGTH,     /* Length; JSON number of mm */
    FIELD_ANGLE,      /* Angle; JSON number of degrees */
    FIELD_NUMBER,     /* int64_t millionths; JSON number */
    FIELD_COUNT,      /* int32_t; JSON whole number */
    FIELD_BOOL,       /* bool */
    FIELD_CHOICE,     /* int, the index of one of the names; JSON string */
    FIELD_TEXT,       /* char *, owned, NULL when empty; JSON string */
    FIELD_PLACE,      /* Place; JSON [x, y] in mm */
    FIELD_VERTICES,   /* List of OutlineNode; JSON [[x, y], [x, y, sagitta], …] in mm */
    FIELD_GROUP,      /* a struct inside the struct; JSON object */
    FIELD_LIST,       /* List of structs; JSON array of objects */
    FIELD_UNKNOWN,    /* char *, owned: the JSON object of keys nobody here knows, or NULL; those of
                         a group without such a field stand in it under the group's key */
} FieldKind;

typedef struct Schema Schema;

typedef struct Field {
    const char *key;
    FieldKind kind;
    size_t offset;
    const Schema *of;           /* of a group or list */
    const char *const *choices; /* of a choice, ends with NULL */
    int64_t least, greatest;    /* of a number of any kind; both 0: +-LENGTH_GREATEST or a turn */
    uint32_t refers_to;         /* of a reference: a bit for each RecordKind it may have */
    bool needed;                /* a file without it is refused */
    bool weak; /* of a reference: dropped when what it names goes, instead of going with it */
} Field;

struct Schema {
    const char *name; /* in messages */
    size_t size;      /* of the struct */
    const Field *fields;
    size_t count;
};

/* Limits on what one file may hold, so that a stranger's file can't exhaust the machine. */
#define LIST_MOST 100000
#define TEXT_MOST 4096

/* No table has more fields. */
#define FIELDS_MOST 64

/* Makes `to` (not initialized) a deep copy of `from`. */
void schema_copy(const Schema *schema, void *to, const void *from);
/* Frees what the struct owns and makes it all zero. */
void schema_clear(const Schema *schema, void *object);
bool schema_equal(const Schema *schema, const void *a, const void *b);

/* Calls `visit` for each reference, with the field it stands in; for one that is ID_NONE only where
 * the field is needed. Stops and
 * returns false when `visit` does. */
bool schema_each_reference(const Schema *schema, const void *object,
                           bool (*visit)(FeatureId id, const Field *field, void *data), void *data);

/* Clears each weak reference to `id`, and takes it out of weak lists. True when there was one. */
bool schema_drop_weak(const Schema *schema, void *object, FeatureId id);

/* Reads a JSON object into `object` (not initialized). On failure `object` is all zero and the
 * error's place names the field. `passed_over` names keys that are the caller's own and not to be
 * kept as unknown (ends with NULL; may be NULL). */
bool schema_read(const Schema *schema, json_object *json, const char *const *passed_over,
                 void *object, Error *error);

/* Adds the fields to the open JSON object in the table's order. Fields that are zero are left out
 * unless needed; unknown keys come last. */
void schema_write(const Schema *schema, const void *object, JsonText *text);

/* Grows a list by one item of `size` bytes, all zero, and returns it. */
void *list_add(List *list, size_t size);

#define list_append(list, Type) ((Type *)list_add((list), sizeof(Type)))
