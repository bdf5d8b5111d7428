/* layout-section.h: the line on the layout that the plate is cut along. */
#pragma once

#include "drawing/view.h"
#include "editor/layout.h"

/* Signal "section-changed" of the layout: the line moved, came or went. */

/* Begins with a line through the middle of what is seen, on the top; the next pull on the layout
 * draws another. Off: there is none. */
void pin_layout_set_section(PinLayout *layout, gboolean on);
/* The line as it lies; false when there is none. */
gboolean pin_layout_section(PinLayout *layout, SectionLine *line);
