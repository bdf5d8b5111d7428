/* readout.h: the bottom line: where the pointer and the selection are, from the datum. */
#pragma once

#include "editor/layout.h"

#define PIN_TYPE_READOUT (pin_readout_get_type())
G_DECLARE_FINAL_TYPE(PinReadout, pin_readout, PIN, READOUT, GtkWidget)

void pin_readout_set_document(PinReadout *readout, PinDocument *document, PinLayout *layout);
void pin_readout_set_both_units(PinReadout *readout, gboolean both);
