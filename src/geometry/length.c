/* length.c: whole nanometres, to and from millimetres and their decimals. */
#include "geometry/length.h"

#include "geometry/decimal.h"

#include <math.h>

double length_to_mm(Length length)
{
    /* Divided, not multiplied by 1e-6, which no double holds exactly. */
    return (double)length / 1e6;
}

Length length_from_mm(double mm)
{
    if (isnan(mm)) {
        return 0;
    }
    double greatest = length_to_mm(LENGTH_GREATEST);
    return (Length)llround(fmax(-greatest, fmin(greatest, mm)) * 1e6);
}

bool millionths_read(const char *text, int64_t greatest, int64_t *value)
{
    return decimal_read(text, 6, greatest, value);
}

size_t millionths_write(int64_t value, char *text)
{
    return decimal_write(value, 6, text);
}
