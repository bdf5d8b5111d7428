/* speech.h: how a sentence is said to a person: its language and its decimal sign.
 *
 * NULL stands everywhere for English with a decimal point, as in files, prints, JSON and on the
 * command line. The editor alone has another.
 */
#pragma once

#include "geometry/words.h"
#include "trade/unit.h"

typedef struct Speech {
    /* The text in the person's language, or itself; it lasts as long as the program. */
    const char *(*translate)(const char *english) __attribute__((format_arg(1)));
    char point; /* the decimal sign */
} Speech;

/* `english`, which was marked with N_(), as it is said. */
const char *speech_say(const Speech *speech, const char *english) __attribute__((format_arg(2)));

/* Puts the decimal sign in place of each point between two digits. `text` holds figures alone. */
void speech_figures(const Speech *speech, char *text);
/* The other way round, for what a person typed. */
void speech_plain_figures(const Speech *speech, char *text);
