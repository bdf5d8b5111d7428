/* arrange-actions.h: aligning, spacing, turning, locking, repeating, measuring and guides as the
 * window's actions, with their keys. */
#pragma once

#include "editor/window-private.h"

void arrange_add_actions(PinWindow *window);
/* Lets those be used that what is selected allows. */
void arrange_update_actions(PinWindow *window);
/* The keys that work while the layout has the focus. */
void arrange_add_keys(GtkWidgetClass *layout);
