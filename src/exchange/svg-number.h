/* svg-number.h: the numbers, lists and lengths in SVG's attributes. */
#pragma once

#include <stdbool.h>

/* Nothing drawn is larger than this; larger numbers are refused. */
#define SVG_NUMBER_MOST 1e9

/* Steps over white space. */
void svg_skip_space(const char **at);

/* Steps over white space with at most one comma in it. True when there was a comma. */
bool svg_skip_comma(const char **at);

/* Reads a number at *at, with nothing before it, and steps over it. Numbers may follow one another
 * with nothing between (`1-2`, `.5.5`), as SVG 1.1 section 8.3.9 has it. False, with *at unmoved,
 * where there is no number or one beyond SVG_NUMBER_MOST. */
bool svg_number_read(const char **at, double *value);

/* Reads one character, 0 or 1. */
bool svg_flag(const char **at, bool *value);

/* How a length's unit was written, which says how far the figure can be trusted. */
typedef enum SvgUnit {
    SVG_UNIT_NONE,     /* user units or px */
    SVG_UNIT_PHYSICAL, /* mm, cm, Q, in, pt, pc */
    SVG_UNIT_RELATIVE, /* %, em, ex, rem: of something that a drawing of a part has not got */
} SvgUnit;

/* Reads a whole attribute as a length in px of which 96 make an inch (CSS Values and Units 3,
 * section 5.2); `whole` is what 100 % is. em and rem count as 16 px and ex as 8. False where it is
 * no length. `unit` may be NULL. */
bool svg_length(const char *text, double whole, double *px, SvgUnit *unit);
