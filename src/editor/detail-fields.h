/* detail-fields.h: which figures of each kind of thing the details show, in which words. */
#pragma once

#include "plate/plate.h"

typedef enum DetailKind {
    DETAIL_HEADING, /* begins a group; the offset is not used */
    DETAIL_LIST,    /* a list of structs, each with its own fields */
    DETAIL_LENGTH,
    DETAIL_ANGLE,
    DETAIL_PLACE, /* two rows, from the datum where it lies on the top */
    DETAIL_TEXT,
    DETAIL_CHOICE,
    DETAIL_BOOL,
    DETAIL_NUMBER,    /* int64_t millionths, 0 or more */
    DETAIL_SIGNED,    /* the same, also below 0 */
    DETAIL_THREAD,    /* a tap's designation; sets its diameter too */
    DETAIL_SIZE,      /* a fitting's by standard and size; sets its other figures too */
    DETAIL_PART_HOLE, /* which hole of its station's part a fitting goes through */
    DETAIL_RECORD,    /* another record, chosen from those of `of` */
    DETAIL_RECORDS    /* several records of `of`, each with a check */
} DetailKind;

typedef struct DetailField DetailField;

/* A list of structs in a record's body: a hole's steps, a base's seats. */
typedef struct DetailList {
    size_t offset; /* of the List in the body */
    size_t size;   /* of one struct */
    const DetailField *fields;
    size_t count;
    const char *heading; /* of each, with %u for its number from 1 */
    const char *add, *take_away;
    uint32_t least, most;
    bool ordered; /* the order means something, so each can be moved */
    /* Fills a new item, the last one of its list, so that it makes sense. */
    void (*begin)(const Plate *plate, Record *record, void *item);
} DetailList;

struct DetailField {
    DetailKind kind;
    const char *name;
    size_t offset;
    const char *const *choices;        /* ends with NULL */
    bool (*applies)(const void *body); /* NULL: always */
    RecordKind of;
    bool optional;          /* a record that may be none */
    const DetailList *list; /* of a list */
};

/* The fields of a record's own body. */
const DetailField *detail_fields(RecordKind kind, size_t *count);
