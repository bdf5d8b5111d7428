/* rack-window.h: which plates of a folder take a part, with their pictures and the reason for each.
 */
#pragma once

#include "editor/window.h"

/* Adds the window's action `rack`. A plate that is pressed is opened in that window, with the
 * answers for the part. */
void rack_add_action(PinWindow *window);
