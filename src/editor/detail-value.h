/* detail-value.h: a field of the details read from a record and written into one. */
#pragma once

#include "editor/detail-fields.h"
#include "editor/document.h"

/* Which struct of the record a field stands in: the record's own body, one of a hole's steps, or
 * one of a part's holes. */
typedef enum DetailWithin { WITHIN_BODY, WITHIN_STEP, WITHIN_PART_HOLE } DetailWithin;

typedef struct DetailSpot {
    const DetailField *field;
    DetailWithin within;
    guint index;
    gboolean y; /* the second figure of a place */
} DetailSpot;

/* The struct that the field stands in; NULL where the record has no such step or hole any more. */
const void *detail_body(const Record *record, const DetailSpot *spot);

/* What the field's row shows; free with g_free. Not for choices, checks and records. */
char *detail_text(PinDocument *document, const Record *record, const DetailSpot *spot);
/* Puts what was typed into a record that is not shared yet. `taken_as` has TYPED_TAKEN_AS bytes.
 * False with an error when it can't be read. */
gboolean detail_read(PinDocument *document, Record *record, const DetailSpot *spot,
                     const char *text, char *taken_as, Error *error);

int *detail_choice(Record *record, const DetailSpot *spot);
bool *detail_bool(Record *record, const DetailSpot *spot);
FeatureId *detail_record(Record *record, const DetailSpot *spot);
