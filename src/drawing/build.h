/* build.h: a plate's drawing, sheet by sheet. */
#pragma once

#include "drawing/view.h"

/* Fills an empty or used drawing with the sheets of the face that `spec` names, or else of the top
 * and then of each inclined face. The top has plan and front elevation in the plate's projection,
 * the others their true view; with overall sizes, ordinates from the datum, labels, and the table
 * of holes, recesses, stations and keep-clears, continued over sheets, and notes. Labels without
 * room go to details at a larger scale. Other prints follow as `spec` asks for them. Sheets are A4
 * (by ASME, Letter) unless the labels have no room there or `spec` names one; the scale is the
 * largest standard one that fits. False with an error when the asked scale doesn't fit on the asked
 * sheet, or the plate on none; the drawing is left with whatever was tried. */
bool drawing_build(Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                   Error *error);

/* The layout alone, on one sheet without frame and table, its metal filled: for pictures in the
 * colours of look.h. The plate's stock has `margin` mm of room round it; `scale` as in ViewMap. */
void drawing_build_layout(Drawing *drawing, const DrawingSource *source, double scale,
                          double margin);
