/* plate-picture.h: a small picture of a whole plate, by the drawing's own code. */
#pragma once

#include "plate/plate.h"

#include <gtk/gtk.h>

/* A drawing area of that size with nothing in it yet. */
GtkWidget *plate_picture_new(int width, int height);
/* Shows the plate's top, with where its base meets it; NULL: nothing. Keeps nothing of it. */
void plate_picture_set(GtkWidget *picture, const Plate *plate);
