/* setup-sheets.h: for the person who runs parts on the plate: what goes on where and how tight,
 * the cutters, what to wipe and measure, and a log to fill in. */
#pragma once

#include "drawing/flow.h"
#include "drawing/hole-table.h"

/* One for each operation that runs parts, or where the plate names none, one for the plate with all
 * its hardware; nothing where it holds neither stations nor hardware. Each begins a new sheet. */
void setup_sheets_draw(Flow *flow, const DrawingSource *source);
