#include "editor/detail-value.h"

#include "editor/detail-size.h"
#include "editor/intl.h"
#include "editor/speech.h"
#include "trade/size-words.h"
#include "trade/typed.h"

#include <math.h>

static void *body_at(Record *record, const DetailSpot *spot)
{
    char *body = record_body(record);
    if (!spot->list)
        return body;
    const List *list = (const List *)(void *)(body + spot->list->offset);
    return spot->index < list->count ? (char *)list->items + spot->index * spot->list->size : NULL;
}

const void *detail_body(const Record *record, const DetailSpot *spot)
{
    return body_at((Record *)record, spot);
}

static void *field_at(Record *record, const DetailSpot *spot)
{
    char *body = body_at(record, spot);
    return body ? body + spot->field->offset : NULL;
}

int *detail_choice(Record *record, const DetailSpot *spot)
{
    return field_at(record, spot);
}

List *detail_records(Record *record, const DetailSpot *spot)
{
    return field_at(record, spot);
}

bool *detail_bool(Record *record, const DetailSpot *spot)
{
    return field_at(record, spot);
}

FeatureId *detail_record(Record *record, const DetailSpot *spot)
{
    return field_at(record, spot);
}

/* --- what is shown ---------------------------------------------------------------------------- */

/* Places on the top are counted from the datum, and so are those that have no face; those on a
 * station or a part are the part's own, those on another face are the face's. */
static PlaceFrom place_from(const Record *record)
{
    if (record->kind == RECORD_PART || record_station(record) != ID_NONE)
        return FROM_PART;
    FeatureId face = record_face(record);
    return face == ID_NONE || face == ID_TOP ? FROM_DATUM : FROM_FACE;
}

static Place zero_of(PinDocument *document, const Record *record)
{
    return place_from(record) == FROM_DATUM ? plate_datum(pin_document_plate(document))
                                            : (Place){0, 0};
}

const char *detail_place_name(const Record *record, gboolean y)
{
    static const char *const names[][2] = {
        [FROM_DATUM] = {N_("X from the datum"), N_("Y from the datum")},
        [FROM_PART] = {N_("X in the part"), N_("Y in the part")},
        [FROM_FACE] = {N_("X on the face"), N_("Y on the face")},
    };
    return _(names[place_from(record)][y ? 1 : 0]);
}

static char *length_words(PinDocument *document, Length length)
{
    char text[LENGTH_PEOPLE_TEXT];
    pin_length_text(length, pin_document_unit(document), text);
    return g_strdup(text);
}

char *detail_text(PinDocument *document, const Record *record, const DetailSpot *spot)
{
    const void *field = field_at((Record *)record, spot);
    char text[LENGTH_TEXT];
    if (!field)
        return g_strdup("");
    switch (spot->field->kind) {
    case DETAIL_LENGTH:
        return length_words(document, *(const Length *)field);
    case DETAIL_PLACE: {
        const Place *at = field;
        Place zero = zero_of(document, record);
        return length_words(document, spot->y ? at->y - zero.y : at->x - zero.x);
    }
    case DETAIL_ANGLE:
        pin_angle_write(*(const Angle *)field, text);
        return g_strdup(text);
    case DETAIL_NUMBER:
    case DETAIL_SIGNED:
        millionths_write(*(const int64_t *)field, text);
        return g_strdup(pin_figures(text));
    case DETAIL_TEXT:
    case DETAIL_THREAD: {
        const char *words = *(char *const *)field;
        return g_strdup(words ? words : "");
    }
    case DETAIL_SIZE: {
        const char *words = *(char *const *)field;
        char said[TYPED_TAKEN_AS];
        size_said(words ? words : "", pin_speech(), said, sizeof said);
        return g_strdup(said);
    }
    default:
        return g_strdup("");
    }
}

/* --- what is typed ---------------------------------------------------------------------------- */

static void set_text(char **field, const char *text)
{
    g_free(*field);
    *field = *text ? g_strdup(text) : NULL;
}

static gboolean read_number(int64_t *field, const char *text, double least, Error *error)
{
    double number;
    if (!pin_typed_number_read(text, least, 1e9, &number, error))
        return FALSE;
    *field = (int64_t)floor(number * 1e6 + 0.5);
    return TRUE;
}

gboolean detail_read(PinDocument *document, Record *record, const DetailSpot *spot,
                     const char *text, char *taken_as, Error *error)
{
    void *field = field_at(record, spot);
    Unit unit = pin_document_unit(document);
    Length length;
    taken_as[0] = '\0';
    if (!field)
        return error_set(error, ERROR_MISSING, NULL, "%s", _("this is no longer there"));
    switch (spot->field->kind) {
    case DETAIL_LENGTH:
        return pin_typed_length_read(text, unit, field, taken_as, TYPED_TAKEN_AS, error);
    case DETAIL_PLACE: {
        Place zero = zero_of(document, record), *at = field;
        if (!pin_typed_length_read(text, unit, &length, taken_as, TYPED_TAKEN_AS, error))
            return FALSE;
        *(spot->y ? &at->y : &at->x) = length + (spot->y ? zero.y : zero.x);
        return TRUE;
    }
    case DETAIL_ANGLE:
        return pin_typed_angle_read(text, field, error);
    case DETAIL_NUMBER:
        return read_number(field, text, 0, error);
    case DETAIL_SIGNED:
        return read_number(field, text, -1e9, error);
    case DETAIL_TEXT:
        set_text(field, text);
        return TRUE;
    case DETAIL_THREAD:
        return detail_read_thread(body_at(record, spot), text, taken_as, error);
    case DETAIL_SIZE:
        return detail_read_size(pin_document_plate(document), &record->fitting, text, taken_as,
                                error);
    default:
        return FALSE;
    }
}
