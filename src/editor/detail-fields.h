/* detail-fields.h: which figures of each kind of thing the details show, in which words. */
#pragma once

#include "plate/record.h"

typedef enum DetailKind {
    DETAIL_HEADING, /* begins a group; the offset is not used */
    DETAIL_STEPS,   /* the place of a hole's steps among its fields */
    DETAIL_LENGTH,
    DETAIL_ANGLE,
    DETAIL_PLACE, /* two rows, from the datum where it lies on the top */
    DETAIL_TEXT,
    DETAIL_CHOICE,
    DETAIL_BOOL,
    DETAIL_NUMBER, /* int64_t millionths */
    DETAIL_THREAD, /* a tap's designation; sets its diameter too */
    DETAIL_SIZE,   /* a fitting's by standard and size; sets its other figures too */
    DETAIL_RECORD  /* another record, chosen from those of `of` */
} DetailKind;

typedef struct DetailField {
    DetailKind kind;
    const char *name;
    size_t offset;
    const char *const *choices;        /* ends with NULL */
    bool (*applies)(const void *body); /* NULL: always */
    RecordKind of;
    bool optional; /* a record that may be none */
} DetailField;

/* The fields of a record's own body. */
const DetailField *detail_fields(RecordKind kind, size_t *count);
/* The fields of one step of a hole, and of one hole of a part. */
const DetailField *detail_step_fields(size_t *count);
const DetailField *detail_part_hole_fields(size_t *count);
/* What a step is called. */
const char *detail_step_name(int kind);
