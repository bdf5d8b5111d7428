/* document.h: one open plate as the window's parts share it: the session, what is selected in it,
 * and what is being dragged.
 *
 * Signals:
 *   changed            the plate, its findings or its path changed
 *   tried              a drag moved on, began or ended; the session's shown state is another
 *   selection-changed
 *   refused (text)     an edit was not carried out, and why
 *   said (text)        something the maker should know, once
 */
#pragma once

#include "session/drag.h"
#include "session/session.h"

#include <glib-object.h>

#define PIN_TYPE_DOCUMENT (pin_document_get_type())
G_DECLARE_FINAL_TYPE(PinDocument, pin_document, PIN, DOCUMENT, GObject)

/* Takes the session over. */
PinDocument *pin_document_new(Session *session);
Session *pin_document_session(PinDocument *document);
const Plate *pin_document_plate(PinDocument *document);
Unit pin_document_unit(PinDocument *document);

/* --- selection ------------------------------------------------------------------------------- */

/* What is selected, in the order it was; owned by the document, good until the next change. */
const FeatureId *pin_document_selection(PinDocument *document, guint *count);
/* The one thing that is selected; ID_NONE when there are none or several. */
FeatureId pin_document_selected_one(PinDocument *document);
gboolean pin_document_is_selected(PinDocument *document, FeatureId id);
void pin_document_select(PinDocument *document, const FeatureId *ids, guint count);
void pin_document_select_one(PinDocument *document, FeatureId id);
void pin_document_select_toggle(PinDocument *document, FeatureId id);

/* --- edits ------------------------------------------------------------------------------------ */

/* Carries an edit out as one step of undo, and clears it. False when it was refused, which has then
 * been said. */
gboolean pin_document_do(PinDocument *document, Edit *edit);
/* One record's change; takes `after` over. */
gboolean pin_document_change(PinDocument *document, const char *name, Record *after);
void pin_document_undo(PinDocument *document);
void pin_document_redo(PinDocument *document);
void pin_document_refuse(PinDocument *document, const Error *error);
void pin_document_say(PinDocument *document, const char *text);
/* Says that the plate, or where it is saved, is not what it was. */
void pin_document_changed(PinDocument *document);

/* --- dragging --------------------------------------------------------------------------------- */

/* NULL while nothing is dragged. */
Drag *pin_document_drag(PinDocument *document);
/* Takes hold of the selection. */
gboolean pin_document_drag_begin(PinDocument *document);
/* Takes hold of something new, not on the plate yet; takes the edit over. */
void pin_document_drag_begin_ghost(PinDocument *document, Edit *ghost, Place hold);
void pin_document_drag_move(PinDocument *document, Length dx, Length dy);
void pin_document_drag_move_to(PinDocument *document, Place to);
void pin_document_drag_turn(PinDocument *document, Place about, Angle by);
/* Lets go; a ghost's new things are selected. */
gboolean pin_document_drag_drop(PinDocument *document);
void pin_document_drag_cancel(PinDocument *document);
