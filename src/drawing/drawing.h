/* drawing.h: a display list: sheets of marks that the players put on a screen or into a file.
 *
 * Fields may be read freely and are changed through the functions alone. Adding a mark allocates
 * only when an array is full; drawing_clear keeps the room.
 */
#pragma once

#include "drawing/lettering.h"
#include "drawing/mark.h"
#include "geometry/outline.h"

typedef struct Sheet {
    double width, height; /* mm */
    size_t first, count;  /* its marks */
    char name[64];
} Sheet;

typedef struct Drawing {
    Lettering *lettering;
    Sheet *sheets;
    size_t sheet_count, sheet_room;
    Mark *marks;
    size_t mark_count, mark_room;
    Vertex *vertices; /* a stroke of one closed vertex is a circle: centre, and radius as sagitta */
    size_t vertex_count, vertex_room;
    char *text;
    size_t text_count, text_room;
    MarkRole role;     /* given to the marks that are added */
    uint32_t feature;  /* likewise */
    size_t path_start; /* the first vertex of the path being added */
    LineKind path_line;
    /* Characters that the lettering has no glyph for and that were left out of the marks, the first
     * of them in Unicode, and labels that found no place. */
    size_t unknown_count;
    uint32_t first_unknown;
    size_t unplaced_count;
    char title[128], subject[256], author[128]; /* for the metadata of files */
} Drawing;

/* Takes a reference to the lettering. Free with drawing_free. */
Drawing *drawing_new(Lettering *lettering);
void drawing_free(Drawing *drawing);
/* No sheets and no marks, with the room kept. */
void drawing_clear(Drawing *drawing);

/* Begins a sheet; marks are added to the last one. */
void drawing_begin_sheet(Drawing *drawing, double width, double height, const char *name);

/* What the marks added from here on are for, and which feature they belong to (0 for none). */
void drawing_about(Drawing *drawing, MarkRole role, uint32_t feature);

void drawing_line(Drawing *drawing, LineKind line, Point from, Point to);
void drawing_circle(Drawing *drawing, LineKind line, Point centre, double radius);
/* An arc by its ends and sagitta, as outline.h has it. */
void drawing_arc(Drawing *drawing, LineKind line, Point from, Point to, double sagitta);
void drawing_box(Drawing *drawing, LineKind line, Box box);
/* A row of lines and arcs; the last vertex's sagitta counts where it is closed. */
void drawing_path(Drawing *drawing, LineKind line, const Vertex *vertices, size_t count,
                  bool closed);
/* The same vertex by vertex; a path with fewer than two vertices is left out again. */
void drawing_path_begin(Drawing *drawing, LineKind line);
void drawing_path_add(Drawing *drawing, Vertex vertex);
void drawing_path_end(Drawing *drawing, bool closed);
/* A ring filled with the role's colour. */
void drawing_fill(Drawing *drawing, const Vertex *vertices, size_t count);
/* A filled circle. */
void drawing_dot(Drawing *drawing, Point centre, double radius);

/* Where a line of text stands against its place. */
typedef enum TextAlong { TEXT_START, TEXT_MIDDLE, TEXT_END } TextAlong;
typedef enum TextAcross {
    TEXT_BASE,   /* the place is on the baseline */
    TEXT_CENTRE, /* the place is half a capital letter above the baseline */
    TEXT_TOP,    /* the place is at the top of a capital letter */
} TextAcross;

typedef struct TextStyle {
    double height; /* mm, of a capital letter */
    TextAlong along;
    TextAcross across;
    double rotation; /* degrees, counter-clockwise */
} TextStyle;

/* The box that a text will take; nothing is added. */
Box drawing_text_box(const Drawing *drawing, Point at, TextStyle style, const char *text);
/* Adds a text and returns its box. An empty text adds nothing. */
Box drawing_text(Drawing *drawing, Point at, TextStyle style, const char *text);

/* The text of a mark, closed by a zero. */
const char *drawing_mark_text(const Drawing *drawing, const Mark *mark);
const Vertex *drawing_mark_vertices(const Drawing *drawing, const Mark *mark);

/* The centre and radius of an arc from `from` (with its sagitta, not 0) to `to`. */
Point arc_centre(Vertex from, Point to, double *radius);
