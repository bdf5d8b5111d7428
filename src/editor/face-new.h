/* face-new.h: the question for a new inclined face: where its break line lies, how steep it is and
 * how far it reaches. */
#pragma once

#include "editor/document.h"

#include <gtk/gtk.h>

#define PIN_TYPE_FACE_NEW (pin_face_new_get_type())
G_DECLARE_FINAL_TYPE(PinFaceNew, pin_face_new, PIN, FACE_NEW, GtkWindow)

/* Signal "made" (its number): the face is on the plate. */

GtkWidget *pin_face_new_new(GtkWindow *parent, PinDocument *document);
