/* close-key.h: Escape closes a window that is built without a class of its own. */
#pragma once

#include <gtk/gtk.h>

void close_on_escape(GtkWidget *window);
