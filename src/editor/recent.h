/* recent.h: plates worked on before, from the desktop's own list. */
#pragma once

#include <gtk/gtk.h>

/* Paths, the latest first, of files that are still there; unref the array. */
GPtrArray *recent_paths(void);
void recent_add(const char *path);
/* Fills a menu with them; each opens by app.open-recent. */
void recent_fill_menu(GMenu *menu);
