/* section.h: the plate cut through along a line on its top. */
#pragma once

#include "drawing/view.h"

/* The part of the line that lies on the top, from its end nearer `from`; false when there is none.
 */
bool section_clip(const DrawingSource *source, SectionLine *line);

/* Draws the cut as it is seen from the line's right (standing at `from`, looking to `to`, the eye
 * is on the right hand): X counts from `from` along the line, Y is the height over the top. Metal
 * is hatched; rims and floors behind the cut are drawn, all else behind it is left out. Inclined
 * faces take their wedge away, and what is cut into them its own. The line must have been clipped.
 */
void section_draw(Drawing *drawing, const DrawingSource *source, const SectionLine *line,
                  ViewMap map);

/* Draws where the section is taken on a plan: the line with wide ends and arrows in the way one
 * looks; `tails` are where the arrows begin, for the letter beside each. */
void section_mark(Drawing *drawing, const SectionLine *line, ViewMap map, Point tails[2]);
