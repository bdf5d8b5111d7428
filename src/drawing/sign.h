/* sign.h: signs of dimensioning, drawn as strokes in a line of text.
 *
 * A text holds the Unicode character of a sign; no font has to have it. Sizes are in heights of a
 * capital letter, Y up from the baseline. Proportions are those of ASME Y14.5, nonmandatory
 * appendix (form and proportion of symbols), and ISO 129-1 for the diameter and square signs; from
 * memory.
 */
#pragma once

#include "geometry/outline.h"

#include <stdbool.h>
#include <stdint.h>

#define SIGN_DIAMETER "\u2300"
#define SIGN_COUNTERBORE "\u2334"
#define SIGN_COUNTERSINK "\u2335"
#define SIGN_DEPTH "\u21A7"
#define SIGN_SQUARE "\u25A1"
#define SIGN_POSITION "\u2316"
#define SIGN_SQUARENESS "\u27C2"
#define SIGN_PARALLEL "\u2225"
#define SIGN_FLATNESS "\u23E5"
#define SIGN_ANGULARITY "\u2220"

typedef struct SignStroke {
    const Vertex *vertices; /* one closed vertex is a circle, as in drawing.h */
    size_t count;
    bool closed;
} SignStroke;

typedef struct Sign {
    uint32_t character;
    double width; /* how far the line goes on, room at both sides taken in */
    double top, bottom;
    const SignStroke *strokes;
    size_t stroke_count;
} Sign;

/* The width of the strokes, in heights of a capital letter: ISO 3098 lettering B (from memory). */
#define SIGN_STROKE_WIDTH 0.1

/* The sign for a character, or NULL where it is a letter like any other. */
const Sign *sign_find(uint32_t character);
