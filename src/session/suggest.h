/* suggest.h: suggestions worked out on a copy of the plate, to be looked at and then accepted or
 * refused. The same plate gives the same suggestion always. */
#pragma once

#include "session/session.h"

/* Told how far it is (0 to 1) and how many have been found or cleared; false stops the search,
 * which then answers with the best it has. */
typedef bool (*SuggestGoOn)(double fraction, uint32_t found, void *data);

typedef struct FillAsk {
    FeatureId part; /* whose stations are wanted */
    FeatureId like; /* a station of it to be copied with its nest and clamps; ID_NONE: a new one
                       from the part's own holes */
    FeatureId face;
    Length step; /* places are tried this far apart; more on a large plate */
} FillAsk;

/* The plate with as many more stations of the part as a search finds room for, none of which brings
 * a new stop. NULL with an error where not even one fits. Free with session_free.
 *
 * The places of a lattice are gone through by rows and by columns, with the part as it lies and
 * turned by a quarter, each of them plain or with every place tried half round as well, and besides
 * all plain grids evenly spread over the face; the arrangement with the most stations
 * is the answer, and of equal ones the first. It is not proved to be the greatest number there
 * is. */
Session *suggest_fill(const Session *session, const FillAsk *ask, SuggestGoOn go_on, void *data,
                      uint32_t *added, Error *error);

/* The plate with things moved as little as a search finds so that stops go and none comes. Made and
 * locked things stay. NULL with an error where there is no stop, or none that a move clears.
 *
 * Each stop's things are tried at their remedies and in sixteen ways at growing distances; the
 * shortest move that leaves fewer stops is taken, until none is left or none helps; at last each
 * moved thing is brought back as far as it can be. */
Session *suggest_clear(const Session *session, SuggestGoOn go_on, void *data, uint32_t *moved,
                       Error *error);

/* Fills an edit that makes the one plate into the other. */
void suggest_edit(const Session *from, const Session *to, const char *name, Edit *edit);
