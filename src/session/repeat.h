/* repeat.h: the selected things again at a pitch: in a row, in a grid, round a centre. */
#pragma once

#include "session/session.h"

/* No more copies than this are made at once. */
#define REPEAT_MOST 1000

typedef struct RepeatGrid {
    int columns, rows;       /* with what is there already; 1 or more, and together more than 1 */
    Length pitch_x, pitch_y; /* from one to the next; either sign */
} RepeatGrid;

/* Fills an edit that adds the other places of a grid, or a row where the other number is 1.
 * `copies`, where given, gets the numbers of those copied from `ids`. */
bool repeat_grid(Session *session, const FeatureId *ids, uint32_t count, const RepeatGrid *grid,
                 Edit *edit, GArray *copies, Error *error);

typedef struct RepeatRound {
    int places;  /* with what is there already; 2 or more */
    Place about; /* on the face, from its origin */
    Angle over;  /* what they are spread over; a whole turn leaves no place twice */
    bool turned; /* each copy is turned with its place */
} RepeatRound;

bool repeat_round(Session *session, const FeatureId *ids, uint32_t count, const RepeatRound *round,
                  Edit *edit, GArray *copies, Error *error);
