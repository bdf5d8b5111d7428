#include "trade/size-words.h"

#include <glib.h>
#include <string.h>

/* What is part of another stands after it. */
static const struct {
    const char *english, *marked; /* NULL: the same */
} words[] = {
    {N_("drill No."), NULL},      {"drill", N_("drill, the tool")}, {N_("shoulder screw"), NULL},
    {N_("socket head"), NULL},    {N_("button head"), NULL},        {N_("flat head"), NULL},
    {N_("dowel"), NULL},          {N_("edge clamp"), NULL},         {N_("prehardened"), NULL},
    {N_("annealed"), NULL},       {N_("hardened"), NULL},           {N_("steel screw class"), NULL},
    {N_("titanium grade"), NULL}, {N_("phenolic grade"), NULL},     {N_("acetal"), NULL},
};

static const char *said_of(gsize i, const Speech *speech)
{
    const char *marked = words[i].marked, *said;
    if (!marked)
        return speech_say(speech, words[i].english);
    said = speech_say(speech, marked);
    return said == marked ? words[i].english : said;
}

/* The bytes of `text` that `word` is, whatever the case of its letters, or 0. */
static gsize begins_with(const char *text, const char *word)
{
    const char *at = text;
    for (; *word; word = g_utf8_next_char(word), at = g_utf8_next_char(at))
        if (!*at ||
            g_unichar_tolower(g_utf8_get_char(at)) != g_unichar_tolower(g_utf8_get_char(word)))
            return 0;
    return *at && g_unichar_isalpha(g_utf8_get_char(at)) ? 0 : (gsize)(at - text);
}

/* Takes the known word at `at`, if there is one, and adds it in the other language. */
static gsize exchange_word(const char *at, const Speech *speech, gboolean to_english, GString *out)
{
    for (gsize i = 0; i < G_N_ELEMENTS(words); i++) {
        const char *english = words[i].english, *said = said_of(i, speech);
        gsize length = begins_with(at, to_english ? said : english);
        if (length) {
            g_string_append(out, to_english ? english : said);
            return length;
        }
    }
    return 0;
}

static void exchange(const char *from, const Speech *speech, gboolean to_english, char *text,
                     size_t size)
{
    GString *out = g_string_new(NULL);
    gboolean at_start = TRUE;
    for (const char *at = from; *at;) {
        gsize length = at_start ? exchange_word(at, speech, to_english, out) : 0;
        at_start = *at == ' ' || *at == ';';
        if (!length) {
            length = (gsize)(g_utf8_next_char(at) - at);
            g_string_append_len(out, at, (gssize)length);
        }
        at += length;
    }
    g_strlcpy(text, out->str, size);
    g_string_free(out, TRUE);
}

void material_said(const char *english, const Speech *speech, char *text, size_t size)
{
    if (speech)
        exchange(english, speech, FALSE, text, size);
    else
        g_strlcpy(text, english, size);
}

void size_said(const char *english, const Speech *speech, char *text, size_t size)
{
    material_said(english, speech, text, size);
    speech_figures(speech, text);
}

void size_plain(const char *typed, const Speech *speech, char *text, size_t size)
{
    if (speech && g_utf8_validate(typed, -1, NULL))
        exchange(typed, speech, TRUE, text, size);
    else
        g_strlcpy(text, typed, size);
    speech_plain_figures(speech, text);
}
