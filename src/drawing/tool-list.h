/* tool-list.h: the tools that the plate is made with. */
#pragma once

#include "drawing/flow.h"
#include "shopplan/shopplan.h"

/* Those of one setting with how deep they go, or of all for NULL, with columns to write each
 * one's stick-out and offset in. */
void tool_list_draw(Flow *flow, const DrawingSource *source, const Shopplan *plan,
                    const Setting *setting);
