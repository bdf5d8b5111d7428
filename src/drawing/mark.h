/* mark.h: one mark of a drawing: a stroke, a fill or a line of text.
 *
 * Places are millimetres on the sheet, X to the right and Y up from its lower left corner, so that
 * arcs turn on paper as they turn on a face. Players paint fills first, then strokes, then text,
 * each in the order in which they were added.
 */
#pragma once

#include "drawing/line-kind.h"
#include "geometry/box.h"

#include <stdbool.h>
#include <stdint.h>

typedef enum MarkKind {
    MARK_FILL,
    MARK_STROKE,
    MARK_TEXT,
} MarkKind;

/* What a mark is for. The screen colours by it, and tests read it. */
typedef enum MarkRole {
    ROLE_FURNITURE, /* frame, title block, signs of the sheet */
    ROLE_STOCK,
    ROLE_HOLE,
    ROLE_RECESS,
    ROLE_FITTING,
    ROLE_PART,
    ROLE_KEEP_CLEAR,
    ROLE_DATUM,
    ROLE_CENTRE_MARK,
    ROLE_DIMENSION,
    ROLE_LABEL,
    ROLE_NOTE,
    ROLE_TABLE,
    ROLE_COUNT
} MarkRole;

typedef struct Mark {
    MarkKind kind;
    MarkRole role;
    LineKind line;    /* strokes */
    bool closed;      /* strokes; fills always are */
    uint32_t feature; /* the feature the mark belongs to, 0 for none */
    uint32_t first;   /* the first of its vertices, or the first byte of its text */
    uint32_t count;   /* vertices, or bytes without the closing zero */
    double phase;     /* strokes: mm into the dash pattern */
    /* Text: where its baseline begins, counter-clockwise turn in degrees, height of a capital
     * letter and length of the line in mm. */
    Point at;
    double rotation;
    double height;
    double width;
    Box box; /* mm on the sheet, the width of strokes left out */
} Mark;

/* A short lower-case name without spaces ("keep-clear"). */
const char *mark_role_name(MarkRole role);
