/* operation-list.h: the operations of the plate in their order: those that make it and those that
 * run parts on it. */
#pragma once

#include "editor/layout.h"

#define PIN_TYPE_OPERATION_LIST (pin_operation_list_get_type())
G_DECLARE_FINAL_TYPE(PinOperationList, pin_operation_list, PIN, OPERATION_LIST, GtkWidget)

/* Signal "chosen" (number of the operation): its figures are wanted. */

void pin_operation_list_set_document(PinOperationList *list, PinDocument *document,
                                     PinLayout *layout);
