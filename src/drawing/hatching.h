/* hatching.h: narrow lines at 45 degrees over an area of metal that is cut, ISO 128-3. */
#pragma once

#include "drawing/drawing.h"

#define HATCHING_PITCH 2.5 /* mm on the sheet, square to the lines */

typedef struct HatchRing {
    const Point *corners;
    size_t count;
} HatchRing;

/* Hatches what lies within an odd number of rings: polygons and openings in them, which may touch
 * but not cross. */
void hatching_draw_rings(Drawing *drawing, const HatchRing *rings, size_t count);

/* Hatches a polygon, which may be of any form but not cross itself. Lines of neighbouring areas run
 * on through both. */
void hatching_draw(Drawing *drawing, const Point *corners, size_t count);
