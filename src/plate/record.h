/* record.h: one numbered thing of a plate. A record never changes once it is shared: a change is a
 * new record with the same number, so edits, undo and pictures of before and after hold references
 * and copy nothing. */
#pragma once

#include "plate/base.h"
#include "plate/face.h"
#include "plate/fitting.h"
#include "plate/hole.h"
#include "plate/keep-clear.h"
#include "plate/operation.h"
#include "plate/part.h"
#include "plate/recess.h"
#include "plate/settings.h"
#include "plate/station.h"

/* In the order in which a file lists them. */
typedef enum RecordKind {
    RECORD_SETTINGS,
    RECORD_FACE,
    RECORD_BASE,
    RECORD_PART,
    RECORD_STATION,
    RECORD_HOLE,
    RECORD_RECESS,
    RECORD_FITTING,
    RECORD_KEEP_CLEAR,
    RECORD_OPERATION
} RecordKind;

#define RECORD_KINDS 10
#define REFERS_TO(kind) (1u << (kind))

typedef struct Record {
    FeatureId id;
    RecordKind kind;
    int references;
    union {
        Settings settings;
        Face face;
        Base base;
        Part part;
        Station station;
        Hole hole;
        Recess recess;
        Fitting fitting;
        KeepClear keep_clear;
        Operation operation;
    };
} Record;

/* A new record, all zero, with one reference. */
Record *record_new(FeatureId id, RecordKind kind);
/* A deep copy with one reference and another number, to be changed before it is shared. */
Record *record_copy(const Record *record, FeatureId id);
Record *record_ref(const Record *record);
void record_unref(const Record *record);
/* Same number, kind and contents. NULL equals NULL alone. */
bool record_equal(const Record *a, const Record *b);

const Schema *record_schema(RecordKind kind);
/* The key of the kind's list in a file, as "holes"; and of one, as "hole". */
const char *record_list_key(RecordKind kind);
const char *record_kind_key(RecordKind kind);

/* The struct that the kind's schema describes. */
void *record_body(Record *record);
const void *record_body_const(const Record *record);

/* What a record stands on, for the kinds that lie on a face; ID_NONE for the others. */
FeatureId record_face(const Record *record);
FeatureId record_station(const Record *record);
/* True where it exists in metal and may not be moved, changed or taken away. */
bool record_made(const Record *record);
bool record_locked(const Record *record);
/* The maker's label of it, or NULL. */
const char *record_label(const Record *record);

/* The place of the kinds that have one, in the coordinates it is kept in; NULL for the others. */
Place *record_place(Record *record);
const Place *record_place_const(const Record *record);
/* The rotation of the kinds that have one; NULL for the others. */
Angle *record_rotation(Record *record);

/* Writes the record as a JSON value, {"id": …, fields}, with {"record": KIND} first where asked. */
void record_write(const Record *record, bool with_kind, JsonText *text);
/* Reads one; `kind` is -1 to read it from the object. NULL with an error. */
Record *record_read(json_object *json, int kind, Error *error);
