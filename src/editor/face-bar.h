/* face-bar.h: which face the layout shows: a button for each, and one to make another. */
#pragma once

#include "editor/layout.h"

#define PIN_TYPE_FACE_BAR (pin_face_bar_get_type())
G_DECLARE_FINAL_TYPE(PinFaceBar, pin_face_bar, PIN, FACE_BAR, GtkWidget)

void pin_face_bar_set_document(PinFaceBar *bar, PinDocument *document, PinLayout *layout);
/* The face after the shown one, or before it, round and round. */
FeatureId pin_face_bar_next(PinFaceBar *bar, int by);
