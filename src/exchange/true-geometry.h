/* true-geometry.h: one face's cut geometry for whoever makes tool paths: an SVG at exactly 1:1 in
 * mm, with no sheet around it and arcs kept as arcs. */
#pragma once

#include "placed/placed.h"

/* The text of the file, the same for the same plate always; free with g_free. NULL with an error
 * for a number that is no face's, or where a nest's border touches itself.
 *
 * A group `face` holds the face's border; after it comes one group for each kind (spot, drill,
 * counterbore, countersink, ream, tap, bore, slot, nest), depth and whether it is made already,
 * named so that it says all three: "drill-depth-12.5", "made-slot-through". Depths are mm from the
 * face as the plate states them: full diameter, full thread, a cone's tip. Circles are `circle`;
 * a tap's is the thread's major diameter. Coordinates are mm with Y down, as SVG has it, from the
 * upper left corner of the face's box; at most 1e-7 mm off. Arcs of more than a third of a turn are
 * written in two, since the ends of a half circle say nothing certain of its height. */
char *true_geometry_text(const Plate *plate, const Placed *placed, FeatureId face, Error *error);
