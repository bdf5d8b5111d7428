/* views.h: plan and front elevation on one X, or the true view of an inclined face, with sizes,
 * ordinates and labels. */
#pragma once

#include "drawing/hole-table.h"

/* The room the views take with everything written round them, mm on the sheet. */
typedef struct ViewsSize {
    double width, height;
} ViewsSize;

ViewsSize views_size(const Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                     const HoleTable *table, FeatureId face, double scale);

/* Draws them in the middle of `area`. Returns how many labels found no place. */
size_t views_draw(Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                  const HoleTable *table, FeatureId face, double scale, Box area);
