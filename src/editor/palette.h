/* palette.h: the layout's few colours, for light and dark. Kinds of things differ by their lines
 * first and by colour second. */
#pragma once

#include "checks/finding.h"
#include "drawing/play-cairo.h"

#include <gtk/gtk.h>

typedef enum Ink {
    INK_LINE,  /* what is cut or drawn */
    INK_FAINT, /* centre marks, the grid */
    INK_STOCK, /* the metal */
    INK_CUT,   /* the ground of a recess or hole */
    INK_PART,
    INK_FITTING,
    INK_KEEP_CLEAR,
    INK_CHOSEN, /* what is selected */
    INK_STOP,
    INK_CAUTION,
    INK_NOTE,
    INK_ON_SIGN, /* figures on a finding's sign */
    INK_COUNT
} Ink;

Colour palette_colour(gboolean dark, Ink ink);
GdkRGBA palette_rgba(gboolean dark, Ink ink);
void palette_set(cairo_t *cairo, gboolean dark, Ink ink, double alpha);
Ink palette_level(FindingLevel level);
/* True when the widget's text is lighter than what it stands on must be. */
gboolean palette_is_dark(GtkWidget *widget);

/* How the screen draws the display list; `user` of the colour function is a Screen. */
typedef struct Screen {
    gboolean dark;
    gboolean chosen; /* all in the colour of what is selected */
} Screen;

PlayStyle palette_screen_style(const Screen *screen);
