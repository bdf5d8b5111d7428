/* measured-window.h: a measured plate in the window: a table against the plate, and a plate of one.
 */
#pragma once

#include "editor/window.h"

/* Adds the window's actions `measured` (deviations of the plate that is open, as they are printed)
 * and `plate-of-table` (a plate with the table's holes, made). */
void measured_add_actions(PinWindow *window);
