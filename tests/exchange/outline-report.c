/* Reads the SVG files it is given and prints a line for each, separated by tabs: file, area, width,
 * height (mm2, mm), openings, holes, sides, notes; or file, "error" and why. The area is the
 * outline's less openings and holes. For the checks against a second reader, and for a look at what
 * a drawing comes to. */
#include "exchange/outline-svg.h"

#include <stdio.h>

static double area_of(const OutlineRead *read)
{
    Part part = {0};
    outline_read_part(read, &part);
    Outline *outline = part_outline(&part, NULL);
    double area = outline ? outline_area(outline) : NAN;
    for (uint32_t i = 0; i < part.holes.count; i++) {
        double d = length_to_mm(LIST_AT(&part.holes, PartHole, i)->diameter);
        area -= G_PI / 4 * d * d;
    }
    outline_unref(outline);
    schema_clear(&part_schema, &part);
    return area;
}

int main(int count, char **arguments)
{
    for (int i = 1; i < count; i++) {
        OutlineRead read;
        Error error = {0};
        if (!outline_svg_load(arguments[i], NULL, &read, &error)) {
            printf("%s\terror\t%s: %s\n", arguments[i], error.place, error.message);
            continue;
        }
        printf("%s\t%.9f\t%.6f\t%.6f\t%u\t%u\t%u", arguments[i], area_of(&read),
               length_to_mm(read.width), length_to_mm(read.height), read.starts->len - 2,
               read.holes->len, read.nodes->len);
        for (guint n = 0; n < read.notes->len; n++)
            printf("\t%s", (const char *)g_ptr_array_index(read.notes, n));
        printf("\n");
        outline_read_clear(&read);
    }
    return 0;
}
