/* details.h: the figures of the selected thing, or of the plate where none is, each as it is typed.
 * Every change is one step of undo. */
#pragma once

#include "editor/document.h"

#include <gtk/gtk.h>

#define PIN_TYPE_DETAILS (pin_details_get_type())
G_DECLARE_FINAL_TYPE(PinDetails, pin_details, PIN, DETAILS, GtkWidget)

void pin_details_set_document(PinDetails *details, PinDocument *document);
/* Shows a record that is no selectable thing, as a part; ID_NONE: the selection again. */
void pin_details_show_record(PinDetails *details, FeatureId id);
