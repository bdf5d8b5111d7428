/* unit.h: the unit a plate is drawn in, and lengths written for people.
 *
 * Text for files is written exactly by geometry/length.h; this is for reading beside the machine.
 */
#pragma once

#include "geometry/length.h"

typedef enum Unit {
    UNIT_MM,
    UNIT_INCH,
} Unit;

/* "mm" or "in". */
const char *unit_name(Unit unit);

/* Nanometres in one of the unit. */
Length unit_length(Unit unit);

/* Room for any text below. */
#define LENGTH_PEOPLE_TEXT 64

/* Writes a length for people, without its unit: inches with four decimals always ("0.2010"),
 * millimetres with up to three, closing zeros left off ("5.105", "12"). Halves are rounded away
 * from 0, and nothing is written as minus zero. Returns the length of the text. */
size_t length_text(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT]);

/* The same with its unit: "0.2010 in", "5.105 mm". */
size_t length_text_with_unit(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT]);

/* In both units, the given one first: "0.2010 in (5.105 mm)". */
size_t length_text_both(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT]);
