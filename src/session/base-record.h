/* base-record.h: the base that a plate drops onto, as a record that many plates share. */
#pragma once

#include "session/session.h"

/* Takes over the first base of another plate. Where this plate has a base of the same name, or one
 * base at all, that is brought up to date: its own holes at a seat's old place go to the new place
 * of the seat of the same kind and turn, unless they stand in metal or are locked. Places in both
 * plates are from the stock's front left corner. False with an error when the other plate has no
 * base, or there is nothing to change. */
bool share_base(Session *session, const Plate *from, Edit *edit, Error *error);
