/* detail-fields-private.h: how the tables of the details are written. */
#pragma once

#include "editor/detail-fields.h"
#include "editor/intl.h"

#include <stddef.h>

#define HEADING(text)                            \
    {                                            \
        .kind = DETAIL_HEADING, .name = N_(text) \
    }
#define HEADING_IF(text, test)                                    \
    {                                                             \
        .kind = DETAIL_HEADING, .name = N_(text), .applies = test \
    }
#define FIELD(what, text, type, member)                                  \
    {                                                                    \
        .kind = what, .name = N_(text), .offset = offsetof(type, member) \
    }
#define FIELD_IF(what, text, type, member, test)                                          \
    {                                                                                     \
        .kind = what, .name = N_(text), .offset = offsetof(type, member), .applies = test \
    }
/* Two rows, named by what they are counted from. */
#define PLACE(type, member)                                                \
    {                                                                      \
        .kind = DETAIL_PLACE, .name = "", .offset = offsetof(type, member) \
    }
#define PLACE_IF(type, member, test)                                                        \
    {                                                                                       \
        .kind = DETAIL_PLACE, .name = "", .offset = offsetof(type, member), .applies = test \
    }
#define CHOICE(text, type, member, words)                                          \
    {                                                                              \
        .kind = DETAIL_CHOICE, .name = N_(text), .offset = offsetof(type, member), \
        .choices = words                                                           \
    }
#define CHOICE_IF(text, type, member, words, test)                                 \
    {                                                                              \
        .kind = DETAIL_CHOICE, .name = N_(text), .offset = offsetof(type, member), \
        .choices = words, .applies = test                                          \
    }
#define RECORD(text, type, member, what)                                                      \
    {                                                                                         \
        .kind = DETAIL_RECORD, .name = N_(text), .offset = offsetof(type, member), .of = what \
    }
#define RECORD_IF(text, type, member, what, test)                                              \
    {                                                                                          \
        .kind = DETAIL_RECORD, .name = N_(text), .offset = offsetof(type, member), .of = what, \
        .applies = test                                                                        \
    }
#define OPTIONAL(text, type, member, what)                                                     \
    {                                                                                          \
        .kind = DETAIL_RECORD, .name = N_(text), .offset = offsetof(type, member), .of = what, \
        .optional = true                                                                       \
    }
#define OPTIONAL_IF(text, type, member, what, test)                                            \
    {                                                                                          \
        .kind = DETAIL_RECORD, .name = N_(text), .offset = offsetof(type, member), .of = what, \
        .optional = true, .applies = test                                                      \
    }
#define RECORDS_IF(text, type, member, what, test)                                              \
    {                                                                                           \
        .kind = DETAIL_RECORDS, .name = N_(text), .offset = offsetof(type, member), .of = what, \
        .applies = test                                                                         \
    }
#define LIST(table)                                       \
    {                                                     \
        .kind = DETAIL_LIST, .name = "", .list = &(table) \
    }
#define LIST_IF(table, test)                                               \
    {                                                                      \
        .kind = DETAIL_LIST, .name = "", .list = &(table), .applies = test \
    }

/* A record's fields and their number. */
typedef struct DetailTable {
    const DetailField *fields;
    size_t count;
} DetailTable;

#define DETAIL_TABLE(name, fields) const DetailTable name = {fields, G_N_ELEMENTS(fields)}

extern const DetailTable detail_settings, detail_face, detail_base, detail_keep_clear;
extern const DetailTable detail_part, detail_station;
extern const DetailTable detail_hole, detail_recess, detail_fitting;
extern const DetailTable detail_operation;
