/* finding-accept.h: findings that the maker has looked at and lets stand, with the reason. They are
 * kept in the plate and can be taken back. */
#pragma once

#include "editor/document.h"

#include <gtk/gtk.h>

#define PIN_TYPE_FINDING_ACCEPT (pin_finding_accept_get_type())
G_DECLARE_FINAL_TYPE(PinFindingAccept, pin_finding_accept, PIN, FINDING_ACCEPT, GtkWindow)

/* Asks for the reason and accepts the finding, whose sentence is `message`. */
GtkWidget *pin_finding_accept_new(GtkWindow *parent, PinDocument *document, const Finding *finding,
                                  const char *message);

/* What the plate holds of it; NULL where it is not accepted. Good until the next edit. */
const AcceptedFinding *accepted_find(const Settings *settings, const Finding *finding);
/* Lets the finding count again, as a step of undo. */
gboolean accepted_take_back(PinDocument *document, const Finding *finding);
