/* chain.h: the operations that make a plate and run it, set up by one command each. Every step is
 * an operation of its own that can be changed afterwards. */
#pragma once

#include "session/session.h"

/* Adds the usual running operations for stations of one part on the top, after those that are there
 * already: the edge clamps hold the blanks while the holes are drilled; screws and pins go in
 * through those holes and the clamps come off; the profile is cut; then, where the part has a bevel
 * and stations on an inclined face, the part moves there for its first side, and turned over for
 * the other. Steps that have nothing to do are left out. Cutters are the shop's usual ones (common
 * practice, no source), to be changed. False with an error when the stations don't hold one part,
 * or a running operation has one of them already. */
bool new_running_chain(Session *session, const FeatureId *stations, uint32_t count, Edit *edit,
                       Error *error);

/* Adds the making operations and puts every hole and recess that has none in one of them: first the
 * holes for the base's locators and pull-downs; then, with the plate on its base, all else on the
 * top; then each inclined face. Close-tolerance holes of one face are so made in one setting. False
 * with an error when everything has its operation already. */
bool new_making_order(Session *session, Edit *edit, Error *error);
