/* item-list.h: the hardware that is fitted to the plate, item by item. */
#pragma once

#include "drawing/flow.h"

/* What a fitting is, in words: "shoulder screw 1/4 × 3/8, 10-24". Free with g_free. */
char *item_words(const DrawingSource *source, const Fitting *fitting);

/* Counts equal items and names where each goes. Nothing without hardware. */
void item_list_draw(Flow *flow, const DrawingSource *source);
