/* layout.h: the plate as it is laid out: the drawing's own plan, with what is selected, dragged and
 * found marked over it. */
#pragma once

#include "editor/document.h"

#include <gtk/gtk.h>

#define PIN_TYPE_LAYOUT (pin_layout_get_type())
G_DECLARE_FINAL_TYPE(PinLayout, pin_layout, PIN, LAYOUT, GtkWidget)

/* Signals: "face-changed" when it shows another face; "operation-changed" when another operation;
 * "pointed" when the pointer moved over the plate or left it; "viewed" when it was zoomed, panned
 * or given another size; "finding-pressed" (number, from 0) when a finding's sign was pressed. */

void pin_layout_set_document(PinLayout *layout, PinDocument *document);

/* Where the pointer is on the face; false while it is elsewhere. */
gboolean pin_layout_pointer(PinLayout *layout, Place *at);
/* The middle of what is seen, on the face. */
Place pin_layout_middle(PinLayout *layout);
/* The face that is shown, seen square on. */
FeatureId pin_layout_face(PinLayout *layout);
/* Shows another face, whole. What is selected and lies on none but others is let go. */
void pin_layout_set_face(PinLayout *layout, FeatureId face);

/* The operation that is shown, with what is on the plate meanwhile and what its cutters sweep;
 * ID_NONE: all that there is. */
FeatureId pin_layout_operation(PinLayout *layout);
void pin_layout_set_operation(PinLayout *layout, FeatureId operation);

/* Zooms about the middle, or the pointer where it is over the layout. */
void pin_layout_zoom(PinLayout *layout, double factor);
void pin_layout_fit(PinLayout *layout);
/* Where the face's origin lies in the widget, and pixels for one millimetre. */
void pin_layout_view(PinLayout *layout, Point *origin, double *scale);
/* 1 shows the plate in its own size on a screen of 96 pixels to an inch. */
double pin_layout_zoom_level(PinLayout *layout);
/* Brings a place into sight. */
void pin_layout_show_place(PinLayout *layout, Point at);
/* Marks a finding out among the others; -1: none. */
void pin_layout_point_out(PinLayout *layout, int finding);

/* The menu of what lies under the pointer. */
void pin_layout_set_menu(PinLayout *layout, GMenuModel *model);
void pin_layout_set_snap(PinLayout *layout, gboolean snap);
/* The grid's step as it is set for the document's unit. */
Length pin_layout_grid(PinLayout *layout);
