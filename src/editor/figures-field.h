/* figures-field.h: one field of a figure's form: its name, what is typed or chosen, and below it
 * what that was taken as or what is wrong with it.
 *
 * Signal "edited": the maker typed or chose something else; sent while typing, too. */
#pragma once

#include "editor/figures-form.h"

#include <gtk/gtk.h>

#define PIN_TYPE_FIGURES_FIELD (pin_figures_field_get_type())
G_DECLARE_FINAL_TYPE(PinFiguresField, pin_figures_field, PIN, FIGURES_FIELD, GtkWidget)

/* `field` must stay; it is no heading. `text` stands in it at first; may be NULL. */
GtkWidget *pin_figures_field_new(const FormField *field, const char *text);
/* As the figure is asked with it; "" for nothing. Owned by the field, good until it is edited. */
const char *pin_figures_field_text(PinFiguresField *field);
/* Sends no "edited". */
void pin_figures_field_set(PinFiguresField *field, const char *text);
/* Says something below the field, as `refused` or not; NULL or "": nothing. */
void pin_figures_field_say(PinFiguresField *field, const char *text, gboolean refused);
