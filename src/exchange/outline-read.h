/* outline-read.h: what reading a drawing or a table of points comes to: one part's outline, its
 * round holes and its openings, in the model's exact lengths.
 */
#pragma once

#include "exchange/loops.h"
#include "plate/outline-node.h"
#include "plate/part.h"

#include <glib.h>

/* A round hole of the part. */
typedef struct RoundHole {
    Length x, y, diameter;
} RoundHole;

typedef struct OutlineRead {
    GArray *nodes;        /* OutlineNode: all rings, the outside first, then the openings */
    GArray *starts;       /* size_t: ring i has the nodes from starts[i] up to starts[i + 1] */
    GArray *holes;        /* RoundHole */
    Length width, height; /* of the outline's box: the size read, to be told */
    double drawn_width, drawn_height; /* mm; the same before rounding */
    GPtrArray *notes; /* char *: what was left out or mended, a plain sentence each */
} OutlineRead;

/* How to read. All zero is fine. */
typedef struct OutlineOptions {
    double tolerance;    /* mm, of arcs for curves; 0: CURVE_TOLERANCE */
    double known_width;  /* mm; not 0: scale everything so that the outline is this wide over all */
    double known_height; /* mm; the same for its height; not together with known_width */
    double unit;         /* mm; of a table: what 1 stands for; 0: 1 mm unless the table says */
} OutlineOptions;

/* Frees what `read` owns and makes it all zero. */
void outline_read_clear(OutlineRead *read);

/* Puts rings and holes into a part, in place of those it has. */
void outline_read_part(const OutlineRead *read, Part *part);

/* ---- for the readers ---- */

/* What readers leave out or mend. Each kind is one note with a count and the first line. */
typedef enum ReadNote {
    NOTE_OPEN,
    NOTE_OUTSIDE,
    NOTE_ISLAND,
    NOTE_TWICE,
    NOTE_EMPTY,
    NOTE_CROSSES_ITSELF,
    NOTE_GAPS,
    NOTE_POLYGON_HOLE,
    NOTE_INVISIBLE,
    NOTE_TEXT,
    NOTE_PICTURE,
    NOTE_CLIPPED,
    NOTE_OTHER_FILE,
    NOTE_NO_SIZE,
    NOTE_RELATIVE_SIZE,
    NOTE_KINDS
} ReadNote;

typedef struct ReadNotes {
    unsigned counts[NOTE_KINDS];
    long lines[NOTE_KINDS]; /* of the first; 0: of none */
} ReadNotes;

void read_notes_add(ReadNotes *notes, ReadNote kind, long line);

/* One sentence for each kind there is, char *. */
GPtrArray *read_notes_write(const ReadNotes *notes);

/* Sorts loops into outline, holes and openings: the loop of largest area is the outline, loops in
 * it are openings, round ones holes. Loops outside it, in another opening, drawn twice or open are
 * left out with a note. With `to_corner` everything is shifted so that the outline's box has its
 * lower left corner at 0, 0. Coordinates are rounded to the nanometre; sides shorter than half a
 * micrometre are left out, since they are rounding and no shape. Fills `read` (not initialized); on
 * failure it is all zero. Errors: ERROR_GEOMETRY where there is no closed loop, the outline crosses
 * itself or a loop crosses another, ERROR_LIMIT as geometry/outline.h has it. */
bool outline_read_sort(Loops *loops, bool to_corner, ReadNotes *notes, OutlineRead *read,
                       Error *error);

/* The factor by which the options' known width or height corrects what was read; 1 where they name
 * none. False with ERROR_TYPED where it is no size. */
bool outline_read_factor(const OutlineRead *read, const OutlineOptions *options, double *factor,
                         Error *error);

/* Reads a whole file of at most `most` bytes. Free with g_free. */
char *outline_read_file(const char *file, size_t most, size_t *size, Error *error);
