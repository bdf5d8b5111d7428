/* picture.h: a small picture of something new, by the drawing's own code. */
#pragma once

#include "drawing/lettering.h"
#include "editor/tray-item.h"

/* A drawing area that shows what the item would put on a plate. */
GtkWidget *picture_new(PinTrayItem *item, Lettering *lettering, Unit unit, int width, int height);
/* Draws it anew, after what is typed in its tray has changed. */
void picture_update(GtkWidget *picture);
