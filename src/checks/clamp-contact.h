/* clamp-contact.h: where an edge clamp meets the blank it pushes at.
 *
 * A clamp pushes along its own X. It pushes at its station's blank, or without a station at the
 * nearest blank in front of it; at the part itself where that has no blank. Rules that look at
 * clamps have the scope SCOPE_CLAMP, and look no further than CLAMP_REACH. Lengths in mm. */
#pragma once

#include "checks/rule.h"

typedef struct ClampContact {
    const Feature *clamp;
    const Feature *part; /* NULL: nothing lies in front of the clamp, and nothing below is known */
    const Fitting *fitting;
    Point way;       /* of length 1 */
    Shape jaw;       /* the front of the clamp's body where it is fitted: a line across the way */
    Shape blank;     /* or the part */
    double distance; /* from the jaw to the blank; negative: the body reaches into it */
    double across;   /* the blank, from the side that is pushed at to the other */
    double top;      /* of the blank, over the face */
    double seat;     /* below the face: what the blank lies on */
} ClampContact;

typedef void (*ClampCheck)(RuleContext *context, const ClampContact *contact);

/* Calls `check` for each edge clamp that has a body. */
void each_clamp(RuleContext *context, ClampCheck check);
/* False for a fitting that is none. */
bool clamp_contact(const Placed *placed, const Feature *fitting, ClampContact *contact);

/* How far a shape can go along `way` before it touches the other; infinite past `most`. */
double way_to_touch(const Shape *moving, Point way, const Shape *other, double most);
/* The shape `by` further along `way`. */
Shape shape_moved(const Shape *shape, Point way, double by);

/* Reports the clamp as {a}, with the part as {b} where there is one, where the two meet. */
Finding *clamp_report(RuleContext *context, int which, const ClampContact *contact, double value,
                      double limit);
