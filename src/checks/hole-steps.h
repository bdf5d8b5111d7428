/* hole-steps.h: what the rules of making ask of a hole's steps. Lengths in mm. */
#pragma once

#include "placed/placed.h"

/* How deep the step goes, from the face; the metal below that place of the face when it goes
 * through. */
double step_depth(const Step *step, const Frame *frame, Point at);

/* How wide the step of a hole at that place is at a depth below the face: a countersink or spot
 * narrows towards its tip. 0 below its end; a drill's point counts as metal. */
double step_width_at(const Step *step, const Frame *frame, Point at, double depth);

/* The largest drilled, bored or reamed step that is smaller than `finish`: what stands ready for
 * it. NULL when there is none. */
const Step *step_before(const Hole *hole, const Step *finish);

/* The deepest tap of the hole, or NULL. */
const Step *hole_tap(const Hole *hole);
