/* new-things.h: edits that put something new on the plate, labelled and ready. */
#pragma once

#include "session/session.h"

/* Each adds to `edit` and returns the number of the new thing. Places are on `face`. */

/* A record made elsewhere, with its next label where its kind has one. Takes it over. */
FeatureId new_thing(Session *session, Record *record, Edit *edit);

/* A hole with the steps of `like` (a hole whose other fields don't matter). */
FeatureId new_hole(Session *session, FeatureId face, Place at, const Hole *like, Edit *edit);
/* A through hole of one drill. */
FeatureId new_drilled_hole(Session *session, FeatureId face, Place at, Length diameter, Edit *edit);
FeatureId new_slot(Session *session, FeatureId face, Place at, Length length, Length width,
                   Length depth, Edit *edit);
FeatureId new_keep_clear(Session *session, FeatureId face, Place at, Length length, Length width,
                         const char *name, Edit *edit);
/* Embeds a part; its record number in a plate that has an equal one already. */
FeatureId new_part(Session *session, const Part *part, Edit *edit);
/* A station that holds the part with the middle of its outline at `at`, with, through each of the
 * part's holes, a locator or a hold-down and the plate's hole for it: the two holes furthest apart
 * locate. */
FeatureId new_station(Session *session, FeatureId face, Place at, FeatureId part, Edit *edit);
/* A nest on `face` for the station's part. */
FeatureId new_nest(Session *session, FeatureId face, FeatureId station, Length clearance,
                   Length depth, Edit *edit);
