/* operation-step.h: which operation the layout shows, with a step to the next one and the one
 * before. */
#pragma once

#include "editor/layout.h"

#define PIN_TYPE_OPERATION_STEP (pin_operation_step_get_type())
G_DECLARE_FINAL_TYPE(PinOperationStep, pin_operation_step, PIN, OPERATION_STEP, GtkWidget)

void pin_operation_step_set_document(PinOperationStep *step, PinDocument *document,
                                     PinLayout *layout);
/* Shows the next operation, or the one before; past both ends lies all that there is. */
void pin_operation_step_go(PinOperationStep *step, int by);
