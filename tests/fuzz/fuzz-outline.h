/* fuzz-outline.h: what must hold of any outline read, whatever the bytes were. */
#pragma once

#include "exchange/outline-read.h"

#include "fuzz.h"

/* What was read makes a part; what was refused says why and holds nothing. */
static inline void check_read(bool fine, OutlineRead *read, const Error *error)
{
    if (!fine) {
        must(error->message[0] && !read->nodes && !read->notes);
        return;
    }
    Part part = {0};
    outline_read_part(read, &part);
    Outline *outline = part_outline(&part, NULL);
    must(outline && outline_area(outline) > 0);
    must(read->width > 0 && read->height > 0);
    for (uint32_t i = 0; i < part.holes.count; i++)
        must(LIST_AT(&part.holes, PartHole, i)->diameter > 0);
    outline_unref(outline);
    schema_clear(&part_schema, &part);
    outline_read_clear(read);
}
