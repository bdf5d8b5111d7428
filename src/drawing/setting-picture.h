/* setting-picture.h: a face as it lies at the machine, with what is fitted, small on a sheet of
 * words. */
#pragma once

#include "drawing/flow.h"
#include "drawing/hole-table.h"

/* The picture takes `height` mm at the most, at the largest standard scale. `fitted` is the
 * hardware to show (FeatureId); NULL: none. `table` holds the face's rows. */
void setting_picture_draw(Flow *flow, const DrawingSource *source, const HoleTable *table,
                          FeatureId face, const List *fitted, bool parts, double height);

/* The map that draws `box` (mm on a face) in the middle of `room`, at the largest standard scale
 * that leaves room for labels round it. */
ViewMap setting_picture_map(Box box, Box room);
