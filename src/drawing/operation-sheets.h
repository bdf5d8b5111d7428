/* operation-sheets.h: for each setting that makes the plate: how it lies, its tools and steps, and
 * what to check before going on. */
#pragma once

#include "drawing/flow.h"
#include "drawing/hole-table.h"

/* One setting, beginning on a new sheet. `table` holds the rows of all faces. */
void operation_sheets_draw(Flow *flow, const DrawingSource *source, const Shopplan *plan,
                           const Setting *setting, const HoleTable *table);

/* "Operation 1, drill the top", or "Top" where no operation makes it. Free with g_free. */
char *operation_sheets_title(const DrawingSource *source, FeatureId operation, FeatureId face);
