/* finding-picture.h: one finding of a plate, as the guide shows its rule. */
#pragma once

#include "drawing/view.h"
#include "session/session.h"

/* Draws on one sheet the place of the rule's first finding: the plan round it, what it is about in
 * the role of notes, on the top the cut through the place below that, and what is wrong in words.
 * False with an error when the plate has no finding of the rule. */
bool finding_picture_draw(Drawing *drawing, Session *session, const Rule *rule, Error *error);
/* The same for a finding that is at hand. */
void finding_picture_draw_one(Drawing *drawing, Session *session, const Finding *finding);
