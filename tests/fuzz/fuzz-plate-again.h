/* fuzz-plate-again.h: what must hold of any plate that came of what was read. */
#pragma once

#include "plate/plate-file.h"

#include "fuzz.h"

#include <string.h>

/* It is read from its own file, and written the same again. */
static inline void must_come_back(const Plate *plate)
{
    size_t size, size_again;
    Error error = {.kind = ERROR_NONE};
    char *text = plate_text(plate, &size);
    Plate *again = plate_parse(text, size, &error);
    must(again != NULL);
    char *text_again = plate_text(again, &size_again);
    must(size == size_again && memcmp(text, text_again, size) == 0);
    plate_free(again);
    g_free(text);
    g_free(text_again);
}
