/* inclined.h: edits that make inclined faces and what belongs on them: the reference hole, and the
 * stations where a blade's bevels are milled. */
#pragma once

#include "session/session.h"

/* The side of the stock that an inclined face falls away to, seen from above. */
typedef enum FallsTo { FALLS_TO_FRONT, FALLS_TO_RIGHT, FALLS_TO_BACK, FALLS_TO_LEFT } FallsTo;

/* Adds a face along the whole of one side of the stock: it leaves the top `run` from that side, as
 * seen in the plan, and reaches just to the side, run / cos(angle) down its slope. `name` may be
 * NULL: it is then called after its side. ID_NONE with an error when the angle or run can't be, or
 * the face would fall below the stock's underside. */
FeatureId new_inclined_face(Session *session, const char *name, FallsTo side, Length run,
                            Angle angle, Edit *edit, Error *error);

/* Adds a reamed hole that a ball or pin of the diameter (0: 6 mm, or 1/4 in in an inch plate)
 * stands in for picking the face up, and names it in the face. `at` is on the face; NULL: the
 * first free place on its middle line, from the break line down, then beside it. ID_NONE with an
 * error when the face has one, or there is no free place. */
FeatureId new_reference_hole(Session *session, FeatureId face, const Place *at, Length diameter,
                             Edit *edit, Error *error);

/* Turns and moves a station of an inclined face so that the edge of its part's bevel lies on the
 * break line with the blade down the slope; the middle of the edge stays where it is along that
 * line. False with an error when the part has no bevel, the face no break line, or the station
 * stands in metal or is locked. */
bool line_up_bevel(const Session *session, FeatureId station, Edit *edit, Error *error);

/* Adds the station for the blade's other side: turned over, with all that stands on it, as the
 * mirror image about the face's middle line (square to the break line), and marks it as such. */
FeatureId new_mirror_station(Session *session, FeatureId station, Edit *edit, Error *error);

/* Adds both stations for a part with a bevel, lined up with the break line, one in each half of the
 * face, with locators and hold-downs; the first lies as drawn, the second turned over. */
bool new_bevel_pair(Session *session, FeatureId face, FeatureId part, FeatureId stations[2],
                    Edit *edit, Error *error);

/* Adds to a station that holds a blade turned over the relief under the bevel that was cut first:
 * over the bevel's height and length and out past the edge, as deep as the gap that the bevel
 * leaves under the edge (trade/bevel.h). The blade's flat then bears up to the bevel's upper line,
 * and neither burr nor chips lift it. */
FeatureId new_support_relief(Session *session, FeatureId station, Edit *edit, Error *error);
