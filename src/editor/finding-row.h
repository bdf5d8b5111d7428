/* finding-row.h: one row of the findings: its sign, what is wrong, and what would mend it. */
#pragma once

#include "drawing/lettering.h"
#include "editor/finding-item.h"

#include <gtk/gtk.h>

#define PIN_TYPE_FINDING_ROW (pin_finding_row_get_type())
G_DECLARE_FINAL_TYPE(PinFindingRow, pin_finding_row, PIN, FINDING_ROW, GtkWidget)

/* Signals: "mend": the maker wants the sure remedy carried out; "accept", "take-back": wants it
 * accepted, or to count again; "limits": wants to see the rule's limits. */

GtkWidget *pin_finding_row_new(Lettering *lettering);
/* NULL lets go of the item. */
void pin_finding_row_set_item(PinFindingRow *row, PinFindingItem *item);
PinFindingItem *pin_finding_row_item(PinFindingRow *row);
/* The chosen row alone has the buttons that are seldom wanted. */
void pin_finding_row_set_chosen(PinFindingRow *row, gboolean chosen);
