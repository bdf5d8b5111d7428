/* import-outline.h: an outline read from a file, shown with its size before it becomes a part. */
#pragma once

#include "editor/document.h"

#include <gtk/gtk.h>

#define PIN_TYPE_IMPORT_OUTLINE (pin_import_outline_get_type())
G_DECLARE_FINAL_TYPE(PinImportOutline, pin_import_outline, PIN, IMPORT_OUTLINE, GtkWindow)

/* Signal "read" (name of the part): the part is on the plate now. */

/* NULL with an error where the file can't be read. */
GtkWidget *pin_import_outline_new(GtkWindow *parent, PinDocument *document, const char *path,
                                  Error *error);
