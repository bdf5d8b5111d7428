/* trays.h: what can be dragged onto the layout: holes, slots, nests, keep-clears,
 * hardware, the plate's parts and those of the rack. */
#pragma once

#include "editor/document.h"
#include "editor/tray-item.h"

#include <gtk/gtk.h>

#define PIN_TYPE_TRAYS (pin_trays_get_type())
G_DECLARE_FINAL_TYPE(PinTrays, pin_trays, PIN, TRAYS, GtkWidget)

/* Signal "wanted" (PinTrayItem): put it on the plate without dragging. */

void pin_trays_set_document(PinTrays *trays, PinDocument *document);
