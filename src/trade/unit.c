#include "trade/unit.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

const char *unit_name(Unit unit)
{
    return unit == UNIT_INCH ? "in" : "mm";
}

Length unit_length(Unit unit)
{
    return unit == UNIT_INCH ? LENGTH_INCH : LENGTH_MM;
}

/* Writes a whole number of steps, of which 10^places make one, with that many decimals. */
static size_t write_steps(uint64_t steps, bool negative, int places, char *text)
{
    uint64_t one = 1;
    for (int i = 0; i < places; i++)
        one *= 10;
    return (size_t)snprintf(text, LENGTH_PEOPLE_TEXT, "%s%" PRIu64 ".%0*" PRIu64,
                            negative && steps ? "-" : "", steps / one, places, steps % one);
}

static size_t without_closing_zeros(char *text, size_t count)
{
    while (text[count - 1] == '0')
        count--;
    if (text[count - 1] == '.')
        count--;
    text[count] = '\0';
    return count;
}

size_t length_text(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT])
{
    uint64_t magnitude = length < 0 ? 0 - (uint64_t)length : (uint64_t)length;
    uint64_t step = unit == UNIT_INCH ? 2540 : 1000; /* nm in the last decimal */
    uint64_t steps = magnitude / step + (magnitude % step >= (step + 1) / 2);
    if (unit == UNIT_INCH)
        return write_steps(steps, length < 0, 4, text);
    return without_closing_zeros(text, write_steps(steps, length < 0, 3, text));
}

size_t length_text_with_unit(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT])
{
    size_t count = length_text(length, unit, text);
    return count +
           (size_t)snprintf(text + count, LENGTH_PEOPLE_TEXT - count, " %s", unit_name(unit));
}

size_t length_text_both(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT])
{
    char other[LENGTH_PEOPLE_TEXT];
    size_t count = length_text_with_unit(length, unit, text);
    length_text_with_unit(length, unit == UNIT_INCH ? UNIT_MM : UNIT_INCH, other);
    int more = snprintf(text + count, LENGTH_PEOPLE_TEXT - count, " (%s)", other);
    return strlen(text) < count + (size_t)more ? strlen(text) : count + (size_t)more;
}
