/* movement.h: records taken hold of, to be shifted and turned together on their face. */
#pragma once

#include "session/session.h"

typedef struct Moved {
    Record *record; /* a copy of the movement's own, changed in place until it is handed on */
    Place start;    /* on the face */
    Angle start_rotation;
    Pose station; /* the coordinates that its place is kept in */
    bool on_station;
} Moved;

typedef struct Movement {
    Edit edit; /* before: the plate's record; after: `record` */
    uint32_t count;
    Moved *items;
} Movement;

/* Takes hold of the things. What stands on a held station goes along by itself and is left out; a
 * screw or pin is taken by the hole it stands in. False with an error when one is made or locked.
 */
bool movement_begin(const Session *session, const FeatureId *ids, uint32_t count,
                    Movement *movement, Error *error);
/* Takes hold of an edit's new records; takes the edit over. */
void movement_begin_new(Edit *edit, Movement *movement);
/* Where everything would be, from where it was taken hold of. Never allocates. */
void movement_shift(Movement *movement, Length dx, Length dy);
void movement_turn(Movement *movement, Place about, Angle by);
/* Adds its changes to an edit, which keeps its name, and frees it. */
void movement_add_to(Movement *movement, Edit *edit);
/* Frees it; the edit too, unless it was taken out of it. */
void movement_clear(Movement *movement);
