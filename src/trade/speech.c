#include "trade/speech.h"

#include <glib.h>

const char *speech_say(const Speech *speech, const char *english)
{
    /* gettext answers the empty text with its own header. */
    return speech && *english ? speech->translate(english) : english;
}

static void exchange(char *text, char from, char to)
{
    for (char *at = text; *at; at++)
        if (*at == from && g_ascii_isdigit(at[1]) && (at == text || at[-1] != from))
            *at = to;
}

void speech_figures(const Speech *speech, char *text)
{
    if (speech)
        exchange(text, '.', speech->point);
}

void speech_plain_figures(const Speech *speech, char *text)
{
    if (speech)
        exchange(text, speech->point, '.');
}
