/* detail-value.h: a field of the details read from a record and written into one. */
#pragma once

#include "editor/detail-fields.h"
#include "editor/document.h"

/* A field of a record: of its own body, or of one of a list of structs in it. */
typedef struct DetailSpot {
    const DetailField *field;
    const DetailList *list; /* NULL: the body's */
    guint index;
    gboolean y; /* the second figure of a place */
} DetailSpot;

/* What a place is counted from. */
typedef enum PlaceFrom { FROM_DATUM, FROM_PART, FROM_FACE } PlaceFrom;

/* The struct that the field stands in; NULL where the record has no such one any more. */
const void *detail_body(const Record *record, const DetailSpot *spot);

/* What the field's row shows; free with g_free. Not for choices, checks and records. */
char *detail_text(PinDocument *document, const Record *record, const DetailSpot *spot);
/* Puts what was typed into a record that is not shared yet. `taken_as` has TYPED_TAKEN_AS bytes.
 * False with an error when it can't be read. */
gboolean detail_read(PinDocument *document, Record *record, const DetailSpot *spot,
                     const char *text, char *taken_as, Error *error);

/* "X from the datum": what the figures of the record's places are called. */
const char *detail_place_name(const Record *record, gboolean y);

int *detail_choice(Record *record, const DetailSpot *spot);
bool *detail_bool(Record *record, const DetailSpot *spot);
FeatureId *detail_record(Record *record, const DetailSpot *spot);
List *detail_records(Record *record, const DetailSpot *spot);
