/* figure-picture.h: a small picture of what a figure is, to the scale of what was typed. */
#pragma once

#include "drawing/drawing.h"
#include "trade/figure.h"

#include <gtk/gtk.h>

/* Adds the picture to the drawing's last sheet, which is `width` by `height` mm and no smaller than
 * 120 by 50. Lengths are written in `unit`. False for a figure that has no picture. */
gboolean figure_picture_build(Drawing *drawing, const Figure *figure, Unit unit, double width,
                              double height);

/* A widget that shows pictures; an image named `name` for who can't see it. The lettering may be
 * NULL, and nothing is drawn then. */
GtkWidget *figure_picture_new(Lettering *lettering, const char *name);
/* Shows another figure, or nothing (NULL). */
void figure_picture_set(GtkWidget *picture, const Figure *figure, Unit unit);
