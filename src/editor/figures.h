/* figures.h: the window with the trade's figures, one page each. It stands beside the plate's
 * window and goes with it. */
#pragma once

#include "editor/window.h"

#define PIN_TYPE_FIGURES (pin_figures_get_type())
G_DECLARE_FINAL_TYPE(PinFigures, pin_figures, PIN, FIGURES, GtkApplicationWindow)

/* Adds the action `figures` to a plate's window, which opens this one and keeps it. */
void figures_add_action(PinWindow *window);
