/* turning.h: a part turned about one hole of the plate, with a new hole under another of its own:
 * where that may lie.
 *
 * The rules are asked at single rotations. What lies between two of them is settled without asking:
 * where a new hole is nearer to a hole, a recess, a keep-clear or an edge than it may be, it stays
 * so for as far a turn as it takes to bring it clear, the place of a turned point moving by its
 * distance from the middle times the angle at the most (a Lipschitz bound). All that lies between
 * two rotations that are right is right too unless something comes nearest to something else there,
 * and at each such rotation the rules are asked as well. */
#pragma once

#include "refit/refit-private.h"

/* What is tried about one hole. */
typedef struct Turning {
    Refit *refit;
    const FaceHoles *face;
    const MatchHole *hole;
    const HoleOption *option;
    int about; /* the part's hole over it, counted from 0 */
    int other; /* the part's hole that gets a new one */
    bool turned_over;
    double done; /* the share of the whole search */
    int tried;
    bool stopped;
} Turning;

/* A rotation that was tried. */
typedef struct TurnSample {
    double degrees;
    int cautions; /* less than 0 where there are stops: one less for each */
    double fails; /* where there are: degrees to either side in which it fails for certain */
} TurnSample;

/* The answer at a rotation; the caller frees it. */
RefitAnswer *turning_answer(const Turning *turning, double degrees);
/* All rotations that say where it fits: an array of TurnSample from 0 to 360 degrees, both
 * included, to unref. Where two neighbours are right all between them are. */
GArray *turning_samples(Turning *turning);

/* For how many degrees to either side the answer's stops last for certain; 0: nothing is known. */
double turning_fails(const Turning *turning, const RefitAnswer *answer);
/* The rotations at which a corner, an arc or a hole of the part comes nearest to something on the
 * face: degrees from 0 to 360, rising, an array of double to unref. */
GArray *turning_nearest(const Turning *turning);
