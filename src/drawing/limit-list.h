/* limit-list.h: the limits that a plate is checked by. */
#pragma once

#include "drawing/flow.h"

/* The limits that the plate changes, with what they start from; nothing where it changes none. */
void limit_list_draw_changed(Flow *flow, const DrawingSource *source);

/* All limits in force, those changed marked. */
void limit_list_draw(Flow *flow, const DrawingSource *source);
