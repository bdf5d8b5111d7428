/* size-words.h: the words that sizes and materials are named with, in a person's language.
 *
 * Tables, files and prints name them in English: "socket head #4", "edge clamp 6 mm", "drill No. 7,
 * 0.2010 in", "440C annealed". Numbers and letters are the same everywhere.
 */
#pragma once

#include "trade/speech.h"

#include <stddef.h>

/* `english` with each known word as it is said, and decimals with the person's sign. */
void size_said(const char *english, const Speech *speech, char *text, size_t size);
/* The other way round, for what a person typed, in either language. */
void size_plain(const char *typed, const Speech *speech, char *text, size_t size);
/* As size_said; a point in a material's name ("1.4116") is no decimal sign. */
void material_said(const char *english, const Speech *speech, char *text, size_t size);
