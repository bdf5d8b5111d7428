/* choose-file.h: the desktop's file chooser, for one kind of file. */
#pragma once

#include <gtk/gtk.h>

typedef enum FileKind {
    FILE_PLATE,
    FILE_PART,    /* a .platepart, or an outline to be read as one */
    FILE_OUTLINE, /* SVG or a table of points */
    FILE_PDF,
    FILE_SVG,
    FILE_TABLE /* of measured holes */
} FileKind;

/* Called with the path that was chosen; not at all where none was. */
typedef void (*FileChosen)(const char *path, gpointer data);

void choose_file_to_open(GtkWindow *parent, FileKind kind, FileChosen chosen, gpointer data);
/* The chooser itself asks before a file that is there is replaced. The kind's ending is added where
 * it is missing. `name` is what the entry holds at first. */
void choose_file_to_save(GtkWindow *parent, FileKind kind, const char *name, const char *folder,
                         FileChosen chosen, gpointer data);
void choose_folder(GtkWindow *parent, const char *title, FileChosen chosen, gpointer data);
