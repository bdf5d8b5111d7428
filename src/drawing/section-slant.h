/* section-slant.h: what is cut into inclined faces, where a section meets it. It leans, so that it
 * is taken out of the metal as an area of the section; X counts along the section's line, Y is the
 * height over the top, mm. */
#pragma once

#include "drawing/view.h"
#include "geometry/region.h"

/* All that the section meets of it, NULL when it meets nothing. Borders are sampled: straight ones
 * are exact, and a corner is off by less than a hundredth of the cut's width. Free with
 * region_free.
 */
Region *section_slant_voids(const DrawingSource *source, const SectionLine *line);

/* The metal in a polygon less the voids. NULL where it can't be worked out. Free with region_free.
 */
Region *section_slant_metal(const Point *corners, size_t count, const Region *voids);
