/* operation-commands.h: commands that set up operations, inclined faces and what belongs to them.
 */
#pragma once

#include "editor/window-private.h"

void operation_commands_add(PinWindow *window);
void operation_commands_update(PinWindow *window);
