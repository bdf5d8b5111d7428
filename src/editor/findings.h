/* findings.h: what the checks found, worst first, live while something is dragged. */
#pragma once

#include "editor/document.h"

#include <gtk/gtk.h>

#define PIN_TYPE_FINDINGS (pin_findings_get_type())
G_DECLARE_FINAL_TYPE(PinFindings, pin_findings, PIN, FINDINGS, GtkWidget)

/* Signal "chosen" (number, from 0): the maker wants to see the place; -1: none any more. */

void pin_findings_set_document(PinFindings *findings, PinDocument *document);
/* Chooses one as if its row had been pressed. */
void pin_findings_choose(PinFindings *findings, int number);
