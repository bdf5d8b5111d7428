/* refit-bar.h: another part on the plate, answer by answer, below the layout. */
#pragma once

#include "editor/window.h"

/* Adds the window's actions `refit` (a part is asked for) and `replace-part` (at the selected
 * station). */
void refit_add_actions(PinWindow *window);
/* Takes parts' files that are dropped on the layout, which is there by then. */
void refit_take_drops(PinWindow *window);
/* Searches and shows the answers; `replace` is the station whose part is replaced, or ID_NONE. */
void refit_show_answers(PinWindow *window, const Part *part, FeatureId replace);
