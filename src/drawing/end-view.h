/* end-view.h: the plate seen along the break line of an inclined face, with the face's angle. */
#pragma once

#include "drawing/flow.h"

/* One view for each inclined face: the plate's profile, the angle, how far the face reaches from
 * its break line, and that this edge is not to be broken. Nothing without such faces. */
void end_views_draw(Flow *flow, const DrawingSource *source);
