/* template-sheets.h: the plate in full size, tiled over the sheets of a small printer. */
#pragma once

#include "drawing/hole-table.h"

/* How many sheets a face's template takes on A4, or by ASME on Letter. */
int template_sheets_count(const DrawingSource *source, FeatureId face);

/* More than these are refused by drawing_build: nobody glues so many together. */
#define TEMPLATE_SHEETS_MOST 60

/* Adds a face's sheets, "of `total`": tiles with an overlap, marks to cut along, and two bars to
 * check the printer by. `table` holds the face's rows. */
void template_sheets_draw(Drawing *drawing, const DrawingSource *source, const HoleTable *table,
                          FeatureId face, int total);
