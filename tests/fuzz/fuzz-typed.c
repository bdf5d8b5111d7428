/* Whatever is typed, a length, an angle and a number come back or a reason does. */
#include "trade/typed.h"

#include "fuzz.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1), taken_as[TYPED_TAKEN_AS];
    if (!text)
        return 0;
    memcpy(text, data, size);
    text[size] = 0;
    Length length;
    Angle angle;
    double number;
    Error error = {.kind = ERROR_NONE};
    if (typed_length_read(text, UNIT_INCH, &length, taken_as, sizeof taken_as, &error))
        must(length <= LENGTH_GREATEST && length >= -LENGTH_GREATEST);
    else
        must(error.kind != ERROR_NONE && *error.message);
    if (typed_angle_read(text, &angle, NULL))
        must(angle <= ANGLE_TURN && angle >= -ANGLE_TURN);
    if (typed_number_read(text, -10, 10, &number, NULL))
        must(number >= -10 && number <= 10);
    free(text);
    return 0;
}
