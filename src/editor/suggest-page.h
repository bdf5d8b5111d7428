/* suggest-page.h: suggestions: a search with its progress, and a picture to accept or refuse. */
#pragma once

#include "editor/window-private.h"

void suggest_add_actions(PinWindow *window);
void suggest_update_actions(PinWindow *window);
