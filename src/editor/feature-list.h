/* feature-list.h: all that is on the plate as a list, selected together with the layout. */
#pragma once

#include "editor/document.h"

#include <gtk/gtk.h>

#define PIN_TYPE_FEATURE_LIST (pin_feature_list_get_type())
G_DECLARE_FINAL_TYPE(PinFeatureList, pin_feature_list, PIN, FEATURE_LIST, GtkWidget)

void pin_feature_list_set_document(PinFeatureList *list, PinDocument *document);
