/* datum-letter.h: the datums A, B, C of a plate's drawing: their letters, words and signs.
 *
 * A is the top, B and C are what X and Y are counted from: the edges at the datum, or the datum
 * hole and the front edge. Inclined faces go by D and the letters after it. */
#pragma once

#include "drawing/view.h"

/* The letter of a face; the letters I, O and Q are left out. */
char datum_letter(const DrawingSource *source, FeatureId face);

/* What each letter stands for, in words: "A: the top. B: the front edge. …". Free with g_free. */
char *datum_words(const DrawingSource *source);

/* The sign by ISO 5459 or ASME Y14.5, which draw it alike (from memory): a filled triangle with its
 * base at `at` on the edge or its extension, and the letter in a box at the end of a line that goes
 * along `way` (of length 1, along X or Y). */
void datum_sign_draw(Drawing *drawing, Point at, Point way, char letter);

/* How far the sign reaches from its edge, and to either side, mm. */
#define DATUM_SIGN_REACH 9.6
#define DATUM_SIGN_HALF 3.0
