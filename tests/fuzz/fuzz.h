/* fuzz.h: what the fuzz targets ask of what they are given. */
#pragma once

#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static inline void must(bool holds)
{
    if (!holds)
        abort();
}
