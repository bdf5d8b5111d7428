/* arrange.h: several things brought into line, evenly apart, turned or locked: edits of what is on
 * the plate already. Made and locked things are refused with an error where they would move. */
#pragma once

#include "session/session.h"

typedef enum Alignment {
    ALIGN_LEFT,     /* left edges */
    ALIGN_CENTRE_X, /* centres on one upright line */
    ALIGN_RIGHT,
    ALIGN_FRONT, /* the edges towards the maker */
    ALIGN_CENTRE_Y,
    ALIGN_BACK
} Alignment;

/* Fills an edit that brings the things into line with the first of them, which stays where it is.
 * A hole's centre is its axis; edges are those of the box round each thing. Things of one face
 * alone: the others are refused. */
bool arrange_align(const Session *session, const FeatureId *ids, uint32_t count,
                   Alignment alignment, Edit *edit, Error *error);

/* Fills an edit that spaces three or more things evenly, centre to centre, along X or Y: the two
 * outermost stay. */
bool arrange_space(const Session *session, const FeatureId *ids, uint32_t count, bool along_y,
                   Edit *edit, Error *error);

typedef enum TurnAbout {
    TURN_EACH, /* each about its own centre */
    TURN_ALL,  /* all together about the middle of the box round them */
    TURN_DATUM
} TurnAbout;

/* Fills an edit that turns the things by a typed angle, counter-clockwise. */
bool arrange_turn(const Session *session, const FeatureId *ids, uint32_t count, TurnAbout about,
                  Angle by, Edit *edit, Error *error);

/* Fills an edit that locks the things, or unlocks them where all are locked already. Hardware goes
 * by what it stands in. False with an error when none of them has a lock. */
bool arrange_lock(const Session *session, const FeatureId *ids, uint32_t count, Edit *edit,
                  Error *error);
/* True where something can be locked, and all that can be is. */
bool arrange_all_locked(const Session *session, const FeatureId *ids, uint32_t count);

/* The middle of the box round the things; false where none of them lies on a face. */
bool arrange_middle(const Session *session, const FeatureId *ids, uint32_t count, Place *middle);
