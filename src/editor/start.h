/* start.h: the first page: a new plate, those worked on before, and the examples. Signals: "made"
 * (Plate *, to be taken over) and "wanted" (path). */
#pragma once

#include <gtk/gtk.h>

#define PIN_TYPE_START (pin_start_get_type())
G_DECLARE_FINAL_TYPE(PinStart, pin_start, PIN, START, GtkWidget)

/* Begins the guided page of a new plate. */
void pin_start_new_plate(PinStart *start);
