/* new-plate-page.h: a new plate in three steps: stock, base with its keep-clears, datum.
 *
 * Signals: "made" (Plate *, to be taken over) and "left", when the maker goes back to the start. */
#pragma once

#include <gtk/gtk.h>

#define PIN_TYPE_NEW_PLATE_PAGE (pin_new_plate_page_get_type())
G_DECLARE_FINAL_TYPE(PinNewPlatePage, pin_new_plate_page, PIN, NEW_PLATE_PAGE, GtkWidget)

/* Shows the first step, with the first thing to type in ready. */
void pin_new_plate_page_begin(PinNewPlatePage *page);
