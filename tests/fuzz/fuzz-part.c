/* Whatever the bytes, a part is refused with a reason or read and makes an outline. */
#include "plate/plate-file.h"

#include "fuzz.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    Error error = {.kind = ERROR_NONE};
    Record *part = part_parse((const char *)data, size, &error);
    if (!part) {
        must(error.kind != ERROR_NONE && *error.message);
        return 0;
    }
    Outline *outline = part_outline(&part->part, NULL);
    must(outline && outline_area(outline) > 0);
    outline_unref(outline);
    record_unref(part);
    return 0;
}
