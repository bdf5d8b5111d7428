#include "trade/size-words.h"

#include <glib.h>
#include <string.h>

/* What is part of another stands after it. */
static const char *const words[] = {
    N_("drill No."),      N_("drill"),          N_("shoulder screw"), N_("socket head"),
    N_("button head"),    N_("flat head"),      N_("dowel"),          N_("edge clamp"),
    N_("prehardened"),    N_("annealed"),       N_("hardened"),       N_("steel screw class"),
    N_("titanium grade"), N_("phenolic grade"), N_("acetal"),
};

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
        const char *said = speech_say(speech, words[i]);
        gsize length = begins_with(at, to_english ? said : words[i]);
        if (length) {
            g_string_append(out, to_english ? words[i] : said);
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
