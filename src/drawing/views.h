/* views.h: plan and front elevation on one X, or the true view of an inclined face, with sizes,
 * ordinates and labels. */
#pragma once

#include "drawing/details.h"
#include "drawing/hole-table.h"

/* The room the views take with everything written round them, mm on the sheet. */
typedef struct ViewsSize {
    double width, height;
} ViewsSize;

ViewsSize views_size(const Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                     const HoleTable *table, FeatureId face, double scale);

/* What of the plan is drawn, as a set of FeatureKind. */
unsigned views_kinds(const ViewSpec *spec);

/* Draws them in the middle of `area`, with the outlines of the details; rows that a detail labels
 * have no label here. Returns how many labels found no place, and marks their rows as missing. */
size_t views_draw(Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                  const HoleTable *table, FeatureId face, double scale, Box area, Details *details);
