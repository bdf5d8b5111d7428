#include "editor/detail-size.h"

#include "editor/speech.h"
#include "trade/clamp.h"
#include "trade/dowel.h"
#include "trade/screw.h"
#include "trade/shoulder-screw.h"
#include "trade/size-words.h"
#include "trade/thread.h"
#include "trade/typed.h"

#include <string.h>

static void set_text(char **field, const char *text)
{
    g_free(*field);
    *field = g_strdup(text);
}

gboolean detail_read_thread(Step *step, const char *text, char *taken_as, Error *error)
{
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

/* The body stands in its slot: what is over the face is the rest of it. */
static Length height_over_face(const Plate *plate, const Fitting *fitting, const Clamp *clamp)
{
    const Record *slot = plate_find_kind(plate, fitting->slot, RECORD_RECESS);
    Length depth =
        slot ? slot->recess.through ? plate_settings(plate)->stock.thickness : slot->recess.depth
             : clamp->slot_depth;
    return MAX(clamp->body_height - depth, 0);
}

static gboolean size_of_clamp(const Plate *plate, Fitting *fitting, const char *text, Error *error)
{
    const Clamp *clamp = clamp_find(text, error);
    if (!clamp)
        return FALSE;
    set_text(&fitting->size, clamp->name);
    fitting->length = clamp->body_length;
    fitting->width = clamp->body_width;
    fitting->head_height = height_over_face(plate, fitting, clamp);
    fitting->travel_least = clamp->travel_least;
    fitting->travel_greatest = clamp->travel_greatest;
    fitting->force = (int64_t)(clamp->force * 1e6);
    return TRUE;
}

gboolean detail_read_size(const Plate *plate, Fitting *fitting, const char *text, char *taken_as,
                          Error *error)
{
    gboolean read = FALSE;
    char plain[TYPED_TAKEN_AS];
    size_plain(text, pin_speech(), plain, sizeof plain);
    text = plain;
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
        read = size_of_clamp(plate, fitting, text, error);
        break;
    }
    if (read)
        size_said(fitting->size, pin_speech(), taken_as, TYPED_TAKEN_AS);
    return read;
}
