/* new-hardware.h: edits that put hardware on the plate with what is cut for it. */
#pragma once

#include "session/session.h"
#include "trade/clamp.h"
#include "trade/dowel.h"
#include "trade/screw.h"

/* Each adds to `edit` and returns the number of what is cut; the hardware stands in it and goes
 * with it. Places are on `face`. */

/* An edge clamp that pushes along X, in a slot as long as its body and its travel ask. */
FeatureId new_edge_clamp(Session *session, FeatureId face, Place at, const Clamp *clamp,
                         Edit *edit);
/* A pin in a hole with the steps of `hole`, as far above the face as it is thick. */
FeatureId new_pin(Session *session, FeatureId face, Place at, const Hole *hole, const Dowel *dowel,
                  Edit *edit);
/* A screw that holds something of `held` (its thickness) down, in a hole with the steps of `hole`.
 */
FeatureId new_hold_down(Session *session, FeatureId face, Place at, const Hole *hole,
                        const Screw *screw, Length held, Edit *edit);
