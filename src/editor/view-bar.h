/* view-bar.h: the strip over the layout: what of the plate is shown there. */
#pragma once

#include "editor/layout.h"

#define PIN_TYPE_VIEW_BAR (pin_view_bar_get_type())
G_DECLARE_FINAL_TYPE(PinViewBar, pin_view_bar, PIN, VIEW_BAR, GtkWidget)

void pin_view_bar_set_document(PinViewBar *bar, PinDocument *document, PinLayout *layout);
/* The face after the shown one, or before it, round and round. */
FeatureId pin_view_bar_next_face(PinViewBar *bar, int by);
/* Shows the next operation (1) or the one before (-1). */
void pin_view_bar_step(PinViewBar *bar, int by);
