/* field-row.h: one typed field: its name, an entry, and below it what the typed text was taken as
 * or why it can't be.
 *
 * Signal "typed" (text): the maker has finished typing, and the text is another than before. */
#pragma once

#include "geometry/error.h"
#include "trade/unit.h"

#include <gtk/gtk.h>

#define PIN_TYPE_FIELD_ROW (pin_field_row_get_type())
G_DECLARE_FINAL_TYPE(PinFieldRow, pin_field_row, PIN, FIELD_ROW, GtkWidget)

GtkWidget *pin_field_row_new(const char *name);
/* Shows a value. What is being typed is left alone unless `anyway`. */
void pin_field_row_set(PinFieldRow *row, const char *text, gboolean anyway);
const char *pin_field_row_text(PinFieldRow *row);
/* Says what was typed was taken as; NULL: nothing. */
void pin_field_row_say(PinFieldRow *row, const char *caption);
void pin_field_row_refuse(PinFieldRow *row, const Error *error);
/* Marks the field as one that a finding is about, and says which; NULL: none. */
void pin_field_row_mark(PinFieldRow *row, const char *finding);
/* For words rather than figures: the entry takes all the room, below its name. */
void pin_field_row_set_wide(PinFieldRow *row);

/* Reads what stands in the row as a length and says what it was taken as, or refuses it. */
gboolean pin_field_row_length(PinFieldRow *row, Unit unit, Length *length);
