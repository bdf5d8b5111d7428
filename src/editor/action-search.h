/* action-search.h: a list of all that can be done, found by typing, with the keys it has. */
#pragma once

#include "editor/window-private.h"

void action_search_add_action(PinWindow *window);
