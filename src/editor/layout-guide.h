/* layout-guide.h: what belongs to the view and not to the plate: temporary guides, measuring, and
 * the kinds of things that are shown. */
#pragma once

#include "editor/layout.h"

/* A line across the face that things snap to; `at` is from the face's origin. A guide is pulled
 * along by the pointer, and goes when it is pulled out of the layout. */
void pin_layout_add_guide(PinLayout *layout, gboolean upright, Length at);
void pin_layout_clear_guides(PinLayout *layout);
guint pin_layout_guide_count(PinLayout *layout);

/* Measures between the two things that are selected, edge to edge or centre to centre; else waits
 * for two presses on edges or centres. */
void pin_layout_measure(PinLayout *layout, gboolean centres);
/* mm; -1 where nothing is measured, or what is measured overlaps. */
double pin_layout_measured(PinLayout *layout);

/* Shows or hides a kind of things (FeatureKind); what is hidden can't be pressed. */
void pin_layout_show_kind(PinLayout *layout, unsigned kind, gboolean show);
