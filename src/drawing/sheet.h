/* sheet.h: standard sheets with their frame, centring marks and zones.
 *
 * ISO 5457 A4 to A1 (frame 20 mm from the filing edge and 10 mm from the others, line 0.7 mm, zones
 * of 50 mm counted from the centring marks) and ASME Y14.1 A (Letter) to D; both from memory. A4
 * and Letter stand upright and have no zones; the others lie.
 */
#pragma once

#include "drawing/drawing.h"

typedef enum SheetSize {
    SHEET_A4,
    SHEET_A3,
    SHEET_A2,
    SHEET_A1,
    SHEET_LETTER,
    SHEET_B,
    SHEET_C,
    SHEET_D,
    SHEET_SIZE_COUNT
} SheetSize;

typedef struct SheetFormat {
    const char *name;     /* "A3", "Letter" */
    double width, height; /* mm */
    double left, right;   /* margins to the frame, mm */
    double top, bottom;
    int zones_along, zones_up; /* 0 where there are none */
    bool asme;                 /* zones counted from the lower right corner, as ASME does */
} SheetFormat;

const SheetFormat *sheet_format(SheetSize size);

/* Reads "a4", "A3", "letter", "b" …; false with an error that lists what there is. */
bool sheet_size_read(const char *text, SheetSize *size, Error *error);

/* The area inside the frame, mm on the sheet. */
Box sheet_frame(SheetSize size);

/* The least height of a capital letter on the sheet, mm: what a small printer's sheet is read at
 * beside the machine. */
#define SHEET_LETTERING 3.5

/* Begins a sheet and draws its frame, centring marks and zones. */
void sheet_begin(Drawing *drawing, SheetSize size, const char *name);
