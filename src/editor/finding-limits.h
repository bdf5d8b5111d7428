/* finding-limits.h: what the checks ask for on this plate: each rule's limits, where they come
 * from, and what the plate changes of them. */
#pragma once

#include "checks/rule.h"
#include "editor/document.h"

#include <gtk/gtk.h>

#define PIN_TYPE_FINDING_LIMITS (pin_finding_limits_get_type())
G_DECLARE_FINAL_TYPE(PinFindingLimits, pin_finding_limits, PIN, FINDING_LIMITS, GtkWindow)

/* `rule` is shown first; NULL: the first one that has limits. */
GtkWidget *pin_finding_limits_new(GtkWindow *parent, PinDocument *document, const Rule *rule);
