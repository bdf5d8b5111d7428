/* layout-feature.h: one thing on the layout as assistive tools see it. It draws nothing: the layout
 * draws all things together. */
#pragma once

#include "editor/document.h"

#include <gtk/gtk.h>

#define PIN_TYPE_LAYOUT_FEATURE (pin_layout_feature_get_type())
G_DECLARE_FINAL_TYPE(PinLayoutFeature, pin_layout_feature, PIN, LAYOUT_FEATURE, GtkWidget)

GtkWidget *pin_layout_feature_new(PinDocument *document, FeatureId id);
FeatureId pin_layout_feature_id(PinLayoutFeature *feature);
/* Brings name, description and state in step with the plate. */
void pin_layout_feature_update(PinLayoutFeature *feature);
/* "hole A1", and where it lies from the datum; free both with g_free. */
char *feature_words(PinDocument *document, FeatureId id);
char *feature_place_words(PinDocument *document, FeatureId id);
