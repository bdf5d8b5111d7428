/* tilt-table.h: an inclined face's holes as the machine sees them when the face lies level. */
#pragma once

#include "drawing/flow.h"
#include "drawing/hole-table.h"

/* Each hole's and slot's place in the face and from the reference hole, both along the face's own X
 * and Y, and how high the face lies over that hole's mouth; `table` may hold other faces' rows.
 * Nothing for the top, or a face without a reference hole. */
void tilt_table_draw(Flow *flow, const DrawingSource *source, const HoleTable *table,
                     FeatureId face);

/* A place on the face, counted from the middle of the reference hole's mouth in the tilted machine:
 * X and Y along the face's own; `height` is the face's over that mouth, all mm. False where there
 * is no reference hole. */
bool tilt_from_reference(const DrawingSource *source, FeatureId face, Point at, Point *from,
                         double *height);
