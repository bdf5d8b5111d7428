/* answer-sheet.h: one answer of a refit on one sheet, for the shop: the plate with the new part on
 * it, the holes that serve and those to be made, and what the checks find new. */
#pragma once

#include "drawing/view.h"
#include "refit/refit.h"

/* Fills the drawing with the sheet of the refit's i-th answer. `source` is the plate that was
 * searched, as it is. The sheet is the smallest that takes it all, from A4 (by ASME, Letter) on, or
 * the one that `spec` names; findings that have no room on the largest are counted and not listed.
 * False with an error when even the picture and the holes have no room on it. */
bool answer_sheet_build(Drawing *drawing, const DrawingSource *source, Refit *refit, uint32_t i,
                        const ViewSpec *spec, Error *error);
