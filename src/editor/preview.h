/* preview.h: the prints sheet by sheet, as they will come out of the printer. */
#pragma once

#include "drawing/drawing.h"

#include <gtk/gtk.h>

#define PIN_TYPE_PREVIEW (pin_preview_get_type())
G_DECLARE_FINAL_TYPE(PinPreview, pin_preview, PIN, PREVIEW, GtkWindow)

/* Takes the drawing over. Signal "print": the maker wants it printed. */
GtkWidget *pin_preview_new(GtkWindow *parent, Drawing *drawing);
/* Offers the choices for the prints: the toggles prints-both-units and prints-chained of `prints`.
 * Without it there are none. */
void pin_preview_offer_choices(PinPreview *preview, GActionGroup *prints);
/* Shows another drawing instead, which it takes over. */
void pin_preview_set_drawing(PinPreview *preview, Drawing *drawing);
