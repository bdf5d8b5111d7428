#include "editor/detail-value.h"

#include "editor/intl.h"
#include "trade/clamp.h"
#include "trade/dowel.h"
#include "trade/screw.h"
#include "trade/shoulder-screw.h"
#include "trade/thread.h"
#include "trade/typed.h"

#include <string.h>

static void *body_at(Record *record, const DetailSpot *spot)
{
    switch (spot->within) {
    case WITHIN_BODY:
        return record_body(record);
    case WITHIN_STEP:
        return record->kind == RECORD_HOLE && spot->index < record->hole.steps.count
                   ? LIST_AT(&record->hole.steps, Step, spot->index)
                   : NULL;
    case WITHIN_PART_HOLE:
        return record->kind == RECORD_PART && spot->index < record->part.holes.count
                   ? LIST_AT(&record->part.holes, PartHole, spot->index)
                   : NULL;
    }
    return NULL;
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

bool *detail_bool(Record *record, const DetailSpot *spot)
{
    return field_at(record, spot);
}

FeatureId *detail_record(Record *record, const DetailSpot *spot)
{
    return field_at(record, spot);
}

/* --- what is shown ---------------------------------------------------------------------------- */

/* Places on the top are counted from the datum; those on a station are the part's own. */
static Place zero_of(PinDocument *document, const Record *record)
{
    if (record_station(record) != ID_NONE || record_face(record) != ID_TOP)
        return (Place){0, 0};
    return plate_datum(pin_document_plate(document));
}

static char *length_words(PinDocument *document, Length length)
{
    char text[LENGTH_PEOPLE_TEXT];
    length_text(length, pin_document_unit(document), text);
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
        angle_write(*(const Angle *)field, text);
        return g_strdup(text);
    case DETAIL_NUMBER:
        millionths_write(*(const int64_t *)field, text);
        return g_strdup(text);
    case DETAIL_TEXT:
    case DETAIL_THREAD:
    case DETAIL_SIZE: {
        const char *words = *(char *const *)field;
        return g_strdup(words ? words : "");
    }
    default:
        return g_strdup("");
    }
}

/* --- what is typed ---------------------------------------------------------------------------- */

static void set_text(char **field, const char *text)
{
    g_free(*field);
    *field = text && *text ? g_strdup(text) : NULL;
}

static gboolean read_thread(Record *record, const DetailSpot *spot, const char *text,
                            char *taken_as, Error *error)
{
    Step *step = body_at(record, spot);
    const Thread *thread = thread_find(text, error);
    if (!thread)
        return FALSE;
    set_text(&step->thread, thread->name);
    step->diameter = thread->major;
    thread_text(thread, taken_as, TYPED_TAKEN_AS);
    return TRUE;
}

/* The trade's tables know shoulder screws by their shoulder alone: "1/4". */
static const char *without_words(const char *text, const char *words)
{
    size_t length = strlen(words);
    while (*text == ' ')
        text++;
    if (g_ascii_strncasecmp(text, words, length) == 0)
        text += length;
    while (*text == ' ')
        text++;
    return text;
}

static gboolean size_of_shoulder(Fitting *fitting, const char *text, Error *error)
{
    const ShoulderScrew *screw = shoulder_screw_find(without_words(text, "shoulder screw"), error);
    if (!screw)
        return FALSE;
    g_free(fitting->size);
    fitting->size = g_strdup_printf("shoulder screw %s", screw->name);
    fitting->diameter = screw->nominal;
    fitting->upper = screw->shoulder_greatest - screw->nominal;
    fitting->lower = screw->shoulder_least - screw->nominal;
    fitting->head_diameter = screw->head_diameter;
    fitting->head_height = screw->head_height;
    return TRUE;
}

static gboolean size_of_dowel(Fitting *fitting, const char *text, Error *error)
{
    const Dowel *dowel = dowel_find(without_words(text, "dowel"), error);
    if (!dowel)
        return FALSE;
    g_free(fitting->size);
    fitting->size = g_strdup_printf("dowel %s", dowel->name);
    fitting->diameter = dowel->nominal;
    fitting->upper = dowel->greatest - dowel->nominal;
    fitting->lower = dowel->least - dowel->nominal;
    return TRUE;
}

static gboolean size_of_screw(Fitting *fitting, const char *text, Error *error)
{
    const Screw *screw = screw_find(text, NULL);
    if (!screw)
        screw = screw_of(SCREW_SOCKET_HEAD, text, error);
    if (!screw)
        return FALSE;
    set_text(&fitting->size, screw->name);
    fitting->diameter = screw->major;
    fitting->upper = fitting->lower = 0;
    fitting->head_diameter = screw->head_diameter;
    fitting->head_height = screw->head_height;
    return TRUE;
}

static gboolean size_of_clamp(Fitting *fitting, const char *text, Error *error)
{
    const Clamp *clamp = clamp_find(text, error);
    if (!clamp)
        return FALSE;
    set_text(&fitting->size, clamp->name);
    fitting->length = clamp->body_length;
    fitting->width = clamp->body_width;
    fitting->head_height = clamp->body_height;
    fitting->travel_least = clamp->travel_least;
    fitting->travel_greatest = clamp->travel_greatest;
    fitting->force = (int64_t)(clamp->force * 1e6);
    return TRUE;
}

static gboolean read_size(Record *record, const char *text, char *taken_as, Error *error)
{
    Fitting *fitting = &record->fitting;
    gboolean read = FALSE;
    switch (fitting->kind) {
    case FITTING_SHOULDER_SCREW:
        read = size_of_shoulder(fitting, text, error);
        break;
    case FITTING_DOWEL:
    case FITTING_RELIEVED_PIN:
        read = size_of_dowel(fitting, text, error);
        break;
    case FITTING_HOLD_DOWN:
        read = size_of_screw(fitting, text, error);
        break;
    case FITTING_EDGE_CLAMP:
        read = size_of_clamp(fitting, text, error);
        break;
    }
    if (read)
        g_strlcpy(taken_as, fitting->size, TYPED_TAKEN_AS);
    return read;
}

static gboolean read_number(int64_t *field, const char *text, Error *error)
{
    double number;
    if (!typed_number_read(text, 0, 1e9, &number, error))
        return FALSE;
    *field = (int64_t)(number * 1e6 + 0.5);
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
        return typed_length_read(text, unit, field, taken_as, TYPED_TAKEN_AS, error);
    case DETAIL_PLACE: {
        Place zero = zero_of(document, record), *at = field;
        if (!typed_length_read(text, unit, &length, taken_as, TYPED_TAKEN_AS, error))
            return FALSE;
        *(spot->y ? &at->y : &at->x) = length + (spot->y ? zero.y : zero.x);
        return TRUE;
    }
    case DETAIL_ANGLE:
        return typed_angle_read(text, field, error);
    case DETAIL_NUMBER:
        return read_number(field, text, error);
    case DETAIL_TEXT:
        set_text(field, text);
        return TRUE;
    case DETAIL_THREAD:
        return read_thread(record, spot, text, taken_as, error);
    case DETAIL_SIZE:
        return read_size(record, text, taken_as, error);
    default:
        return FALSE;
    }
}
