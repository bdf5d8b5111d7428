/* Whatever the bytes, a part is refused with a reason or read and makes an outline. */
#include "plate/plate-file.h"

#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    Error error = {.kind = ERROR_NONE};
    Record *part = part_parse((const char *)data, size, &error);
    if (!part) {
        if (error.kind == ERROR_NONE || !*error.message)
            abort();
        return 0;
    }
    Outline *outline = part_outline(&part->part, NULL);
    if (!outline || !(outline_area(outline) > 0))
        abort();
    outline_unref(outline);
    record_unref(part);
    return 0;
}
