/* preferences-window.h: the window of what is chosen once: new plates' unit, projection, limits and
 * shop, and how things are handled. */
#pragma once

#include "editor/window.h"

/* The window's action `preferences`. */
void preferences_add_action(PinWindow *window);
