/* drag.h: things under way with the pointer. Nothing is committed until it is let go of, and
 * nothing allocates while it moves. */
#pragma once

#include "session/session.h"

typedef struct Drag Drag;

/* Takes hold of things for moving; NULL with an error when one may not be moved. */
Drag *drag_begin(Session *session, const FeatureId *ids, uint32_t count, Error *error);
/* Takes hold of a ghost: an edit not carried out whose new records follow the pointer. `hold` is
 * the place in the ghost, on its face, that the pointer holds. The edit is taken over. */
Drag *drag_begin_ghost(Session *session, Edit *ghost, Place hold);

/* Where the things would be, moved by (dx, dy) from where they were taken hold of. Tries it. */
void drag_move(Drag *drag, Length dx, Length dy);
/* The same for a ghost: the place that is held lies at `to`. */
void drag_move_to(Drag *drag, Place to);
/* Turned by `by` about a place on the face. Tries it. */
void drag_turn(Drag *drag, Place about, Angle by);
/* The edit as it now stands; owned by the drag. */
const Edit *drag_edit(const Drag *drag);
/* What is held and all that goes with it, rising. */
const FeatureId *drag_ids(const Drag *drag, uint32_t *count);

/* Lets go: carries it out as one edit. False with an error when it does not fit. Frees the drag. */
bool drag_drop(Drag *drag, Error *error);
/* Puts it all back. Frees the drag. */
void drag_cancel(Drag *drag);
