/* window.h: the window of one plate: trays, layout, details, findings and readout. */
#pragma once

#include "editor/document.h"

#include <gtk/gtk.h>

#define PIN_TYPE_WINDOW (pin_window_get_type())
G_DECLARE_FINAL_TYPE(PinWindow, pin_window, PIN, WINDOW, GtkApplicationWindow)

PinWindow *pin_window_new(GtkApplication *application);
/* Shows a session, which is taken over, and begins its journal. */
void pin_window_set_session(PinWindow *window, Session *session);
/* Shows the guided page of a new plate, in a window that has none yet. */
void pin_window_begin_new_plate(PinWindow *window);
/* NULL while the first page is shown. */
PinDocument *pin_window_document(PinWindow *window);
/* Opens a file in this window where it is empty, else in another. False where it can't be read,
 * which has then been said. */
gboolean pin_window_open(PinWindow *window, const char *path);
/* Says something where the plate's own messages are, or on the first page in a window. */
void pin_window_say(PinWindow *window, const char *text);
/* Offers what journals of a run that ended badly hold. */
void pin_window_offer_recovery(PinWindow *window);
