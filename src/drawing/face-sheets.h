/* face-sheets.h: the sheets of one face: its views, and the table where it has no room beside them.
 */
#pragma once

#include "drawing/details.h"
#include "drawing/hole-table.h"

typedef struct FaceSheets {
    const DrawingSource *source;
    const ViewSpec *spec;
    FeatureId face;
    HoleTable *table;
    Details details; /* of what has no room in the views */
    SheetSize sheet; /* as chosen */
    double scale;    /* likewise */
    int count;       /* sheets it takes */
    size_t unplaced; /* labels that find no place there */
} FaceSheets;

/* Chooses sheet and scale, drawing into `scratch` to see what has room. The source, the plan and
 * the spec are borrowed. False with an error when the plate has no room, or not at the scale that
 * is asked for. End with face_sheets_end either way. */
bool face_sheets_start(FaceSheets *sheets, Drawing *scratch, const DrawingSource *source,
                       const Shopplan *plan, const ViewSpec *spec, FeatureId face, Error *error);
void face_sheets_end(FaceSheets *sheets);

/* Adds the sheets, numbered from `first` of `total`. */
void face_sheets_draw(FaceSheets *sheets, Drawing *drawing, int first, int total);
