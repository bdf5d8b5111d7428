/* tray-row.h: a row of a tray: an item's picture and name, to be dragged from there. */
#pragma once

#include "drawing/lettering.h"
#include "editor/tray-item.h"

/* Adds one at the list's end; takes the item over. */
GtkWidget *tray_row_add(GtkListBox *list, PinTrayItem *item, Lettering *lettering, Unit unit);
/* Borrowed. */
PinTrayItem *tray_row_item(GtkListBoxRow *row);
/* Draws the pictures anew, after what is typed in the tray has changed. */
void tray_rows_update(GtkListBox *list);
void tray_rows_clear(GtkListBox *list);
