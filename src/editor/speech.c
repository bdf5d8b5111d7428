#include "editor/speech.h"

#include "editor/intl.h"
#include "trade/size-words.h"

#include <glib.h>
#include <locale.h>
#include <stdio.h>
#include <string.h>

static const char *translate(const char *english)
{
    return gettext(english);
}

static Speech speech = {translate, '.'};
/* The desktop's way with numbers, for sentences with figures in them. */
static locale_t numbers;

const Speech *pin_speech(void)
{
    return &speech;
}

G_GNUC_PRINTF(3, 0)
static int say(char *text, unsigned long size, const char *format, va_list values)
{
    if (strcmp(format, "%s") == 0)
        return snprintf(text, size, "%s", speech_say(&speech, va_arg(values, const char *)));
    locale_t was = uselocale(numbers);
    int wanted = vsnprintf(text, size, speech_say(&speech, format), values);
    uselocale(was);
    /* What is filled in may name a drill. */
    char *filled = g_strdup(text);
    material_said(filled, &speech, text, size);
    g_free(filled);
    return wanted;
}

void pin_speech_start(void)
{
    const char *locales = g_getenv("PINPLATE_LOCALES");
    setlocale(LC_ALL, "");
    const char *point = localeconv()->decimal_point;
    if (strlen(point) == 1)
        speech.point = *point;
    numbers = newlocale(LC_NUMERIC_MASK, speech.point == *point ? setlocale(LC_NUMERIC, NULL) : "C",
                        duplocale(LC_GLOBAL_LOCALE));
    setlocale(LC_NUMERIC, "C");
    bindtextdomain("pinplate", locales ? locales : EDITOR_LOCALES);
    bind_textdomain_codeset("pinplate", "UTF-8");
    textdomain("pinplate");
    error_set_sayer(say);
}

char *pin_figures(char *text)
{
    speech_figures(&speech, text);
    return text;
}

size_t pin_length_text(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT])
{
    size_t written = length_text(length, unit, text);
    pin_figures(text);
    return written;
}

size_t pin_length_text_with_unit(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT])
{
    size_t written = length_text_with_unit(length, unit, text);
    pin_figures(text);
    return written;
}

size_t pin_length_text_both(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT])
{
    size_t written = length_text_both(length, unit, text);
    pin_figures(text);
    return written;
}

size_t pin_angle_write(Angle angle, char text[LENGTH_TEXT])
{
    size_t written = angle_write(angle, text);
    pin_figures(text);
    return written;
}

char *pin_typed_plain(const char *text)
{
    char *plain = g_strdup(text);
    speech_plain_figures(&speech, plain);
    return plain;
}

bool pin_typed_length_read(const char *text, Unit unit, Length *length, char *taken_as, size_t size,
                           Error *error)
{
    char *plain = pin_typed_plain(text);
    bool ok = typed_length_read_said(plain, unit, &speech, length, taken_as, size, error);
    g_free(plain);
    return ok;
}

bool pin_typed_angle_read(const char *text, Angle *angle, Error *error)
{
    char *plain = pin_typed_plain(text);
    bool ok = typed_angle_read(plain, angle, error);
    g_free(plain);
    return ok;
}

bool pin_typed_number_read(const char *text, double least, double greatest, double *number,
                           Error *error)
{
    char *plain = pin_typed_plain(text);
    bool ok = typed_number_read(plain, least, greatest, number, error);
    g_free(plain);
    return ok;
}
