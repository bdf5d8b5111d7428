/* hit.h: what lies under a point or in a band on the layout. */
#pragma once

#include "session/session.h"

/* The thing to take when `p` on `face` is pressed: the smallest whose area is within `reach` mm of
 * it, fittings before holes, holes before recesses, recesses before parts. ID_NONE: nothing.
 * `kinds` is a set of FeatureKind: what is hidden is not pressed. */
FeatureId hit_point(const Placed *placed, FeatureId face, Point p, double reach, unsigned kinds);
/* All that lies wholly in the box, rising. The caller unrefs the array of FeatureId. */
GArray *hit_band(const Placed *placed, FeatureId face, Box band, unsigned kinds);
