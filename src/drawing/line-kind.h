/* line-kind.h: the kinds of line a drawing is made of, with their widths and dashes.
 *
 * Widths are line group 0.5 of ISO 128-2 (from memory): wide lines 0.5 mm, narrow lines half of
 * that; the frame is 0.7 mm by ISO 5457 (from memory). Dash patterns are the multiples of the line
 * width that ISO 128-2 gives (from memory): gap 3d, dash 12d, long dash 24d, dot 0.5d.
 */
#pragma once

#include <stddef.h>

typedef enum LineKind {
    LINE_VISIBLE,   /* edges and outlines that are seen */
    LINE_HIDDEN,    /* edges behind the material */
    LINE_CENTRE,    /* axes and centres: long dash, dot */
    LINE_PHANTOM,   /* what is not the plate itself, as the part: long dash, two dots */
    LINE_DIMENSION, /* dimensions, witness lines, leaders */
    LINE_THREAD,    /* the major diameter of a cut thread, ISO 6410-1 */
    LINE_HATCHING,  /* cut surfaces, and areas that are kept clear */
    LINE_FRAME,     /* the border of the sheet */
    LINE_TABLE,     /* the rules of tables and the title block */
    LINE_SIGN,      /* wide strokes of datum and projection signs */
    LINE_KIND_COUNT
} LineKind;

/* A short lower-case name without spaces ("visible"), as it stands in SVG files. */
const char *line_kind_name(LineKind kind);

/* mm */
double line_kind_width(LineKind kind);

/* The lengths in mm of dash, gap, dash, gap and so on, from the start of a long dash, and how many
 * they are; `count` is 0 for an unbroken line. */
const double *line_kind_dashes(LineKind kind, size_t *count);

/* How far into its pattern a straight line of `length` mm has to begin so that it begins and ends
 * with equal parts of a dash; 0 where the line is unbroken. */
double line_kind_phase(LineKind kind, double length);
