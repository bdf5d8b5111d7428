/* deviation-sheet.h: a plate as measured against the plate as drawn, for paper: a picture with
 * enlarged arrows, and the table of deviations with the position tolerance that each uses up. */
#pragma once

#include "drawing/view.h"
#include "refit/measured.h"

/* One comparison; all borrowed. */
typedef struct Deviations {
    const MeasuredTable *table;
    const Measured *measured;
    FeatureId face; /* that was measured */
} Deviations;

/* Fills the drawing with as many sheets as it takes, of the size that `spec` names or else the
 * smallest that has room for the picture. */
bool deviation_sheet_build(Drawing *drawing, const DrawingSource *source,
                           const Deviations *deviations, const ViewSpec *spec, Error *error);
