/* access.h: what a screen reader, or a script over AT-SPI, is told and can do where the toolkit's
 * own widgets tell nothing: names for the parts that take the focus, and actions for rows and
 * drop-downs. */
#pragma once

#include <gtk/gtk.h>

/* How a screen reader names the widget. */
void access_name(GtkWidget *widget, const char *name);

/* Names a drop-down of a GtkStringList, the button in it that takes the focus, and the rows of its
 * list; says what is chosen as its description; and gives it the actions `choice.next` and
 * `choice.previous`, as its list can only be worked with keys or the pointer. */
void access_choice(GtkDropDown *choice, const char *name);

/* Gives a row of a list box or a card of a flow box the action `row.choose`: what Enter does. */
void access_row(GtkWidget *row);

/* Gives a check button, which the toolkit gives none, the action `check.toggle`. */
void access_check(GtkWidget *check);

/* What access_row does, of an item in a list view, by its child: the action selects it alone. */
void access_item(GtkWidget *child);
/* The item's name, whenever its child is bound to something else. */
void access_name_item(GtkWidget *child, const char *name);

/* Names the rows of a sidebar by what they say; after its stack's pages are there. */
void access_sidebar(GtkStackSidebar *sidebar);
