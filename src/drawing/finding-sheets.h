/* finding-sheets.h: the appendix to the prints: what the checks say of the plate, which findings
 * the maker lets stand and why, figures worked out, and the limits in force. */
#pragma once

#include "drawing/flow.h"

void finding_sheets_draw(Flow *flow, const DrawingSource *source);
