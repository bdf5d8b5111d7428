/* section-view.h: the plate cut through along the line that lies on the layout, drawn as the prints
 * draw it. It follows the line and all that is dragged. */
#pragma once

#include "editor/layout.h"

#define PIN_TYPE_SECTION_VIEW (pin_section_view_get_type())
G_DECLARE_FINAL_TYPE(PinSectionView, pin_section_view, PIN, SECTION_VIEW, GtkWidget)

void pin_section_view_set_document(PinSectionView *view, PinDocument *document, PinLayout *layout);
