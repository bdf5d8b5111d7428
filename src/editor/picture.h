/* picture.h: a small picture of something new, by the drawing's own code. */
#pragma once

#include "drawing/lettering.h"
#include "editor/tray-item.h"

/* A drawing area that shows what the item would put on a plate, at no more than `most` of its own
 * size: in a tray a small drill is to look smaller than a large one. */
GtkWidget *picture_new(PinTrayItem *item, Lettering *lettering, Unit unit, int width, int height,
                       double most);
/* Draws it anew, after what is typed in its tray has changed. */
void picture_update(GtkWidget *picture);
