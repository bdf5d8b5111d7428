/* selection.h: edits made of records that are there: move, turn, duplicate, take away, mend. */
#pragma once

#include "session/session.h"

/* The records that go when `id` goes: what stands on it or names it, and itself, each once. The
 * caller frees the array. */
GArray *selection_with_dependents(const Plate *plate, const FeatureId *ids, uint32_t count);

/* Fills an edit that takes the things away with all that stands on them. False with an error when
 * one of them is made, locked or belongs to every plate. */
bool selection_delete(const Session *session, const FeatureId *ids, uint32_t count, Edit *edit,
                      Error *error);

/* Fills an edit that moves the things by whole nanometres on their face. What stands on a moved
 * station goes with it and is not moved twice. Made and locked things are refused with an error. */
bool selection_move(const Session *session, const FeatureId *ids, uint32_t count, Length dx,
                    Length dy, Edit *edit, Error *error);
/* Fills an edit that turns the things about a place on their face. */
bool selection_turn(const Session *session, const FeatureId *ids, uint32_t count, Place about,
                    Angle by, Edit *edit, Error *error);
/* Fills an edit that turns stations over about the face's X through each part's middle. */
bool selection_turn_over(const Session *session, const FeatureId *ids, uint32_t count, Edit *edit,
                         Error *error);
/* Fills an edit that adds copies of the things, with all that stands on them, moved by (dx, dy),
 * with new labels and not made. `copies`, where given, gets the numbers of those copied from `ids`.
 */
bool selection_duplicate(Session *session, const FeatureId *ids, uint32_t count, Length dx,
                         Length dy, Edit *edit, GArray *copies, Error *error);

/* The things as JSON for the clipboard, with the parts they need; free with g_free. */
char *selection_copy(const Session *session, const FeatureId *ids, uint32_t count);
/* Fills an edit that adds what selection_copy wrote, in this plate or another one. */
bool selection_paste(Session *session, const char *text, size_t size, Length dx, Length dy,
                     Edit *edit, GArray *pasted, Error *error);

/* Fills an edit with the finding's sure remedy. False where it has none, or where trying it leaves
 * a new stop. */
bool selection_remedy(Session *session, const Finding *finding, Edit *edit);
