/* start.h: the first page: a new plate by its stock, or one worked on before.
 *
 * Signals: "made" (pointer to a Plate that the handler takes over), "wanted" (path of a file). */
#pragma once

#include <gtk/gtk.h>

#define PIN_TYPE_START (pin_start_get_type())
G_DECLARE_FINAL_TYPE(PinStart, pin_start, PIN, START, GtkWidget)
