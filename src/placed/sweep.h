/* sweep.h: what the cutter of a pass goes through at a station, and its holder above it.
 *
 * A sweep is a core plus growth, as a shape is: the cutter's axis follows the border of the part's
 * outline grown by the cutter's radius and the stock left, and the sweep is all that is no further
 * from that way than the radius. Its height is that of the cutter up to its holder.
 *
 * Exact: gaps to all that stands on the same face, outside and inside of the way, while the two do
 * not meet; and to any convex piece on any face for holes and bevels. Bounds, always on the side of
 * reporting too much: how deep two reach into each other; a cutter with round corners or a drill's
 * point, taken as flat-ended over its full width; an opening's corners that are tighter than the
 * cutter, taken to be cut out; what stands on another face next to a pass round an outline, taken
 * as the least block round it that is upright in the face of the pass. */
#pragma once

#include "placed/placed.h"

/* A holder, and the spindle's end above it, is looked at up to this height (mm). */
#define SWEEP_HOLDER 100.0

typedef enum SweepWay {
    SWEEP_ROUND,  /* the axis follows the border of `path` */
    SWEEP_WITHIN, /* the axis keeps `inset` inside the border of `path` */
    SWEEP_OVER    /* the axis goes all over `path` */
} SweepWay;

typedef struct Sweep {
    FeatureId face;      /* ID_NONE: level, in the plate's own coordinates */
    Placement placement; /* of the coordinates that all below is in */
    SweepWay way;
    Shape path;
    double inset;       /* mm */
    double radius;      /* mm */
    double bottom, top; /* mm over the face: of the cutter's full width, and of its holder's end */
    double tip;         /* mm over the face: of a drill's point; else the bottom */
} Sweep;

/* Calls `visit` for each piece of what the pass sweeps at the station, with nothing for a pass
 * without a cutter, until it returns false: one for the outside, one for each opening, one for each
 * hole that is not smaller than the cutter, one for a bevel. A bevel is cut with the plate level,
 * so the station must stand on an inclined face; all other passes square to the station's face.
 * Never allocates. */
typedef bool (*SweepVisit)(const Sweep *sweep, void *data);
void sweeps_each(const Placed *placed, const Feature *station, const Pass *pass, SweepVisit visit,
                 void *data);

/* The holder of the pass above that sweep; false where its diameter or place is not known. */
bool sweep_holder(const Sweep *sweep, const Pass *pass, Sweep *holder);

/* The area within which all of it lies, in its own coordinates, with what the way goes round. */
Shape sweep_area(const Sweep *sweep);
/* The box of the axis' way, in its own coordinates; of one within an opening, or a little more. */
Box sweep_way_box(const Sweep *sweep);

typedef struct SweepGap {
    double distance;  /* mm; negative where they meet, and then no more than a sign */
    Point on_a, on_b; /* in the coordinates of the sweep: on the sweep, and on the other */
} SweepGap;

/* The gap of the sweep to a feature of any face; false when it is more than `limit` (mm). Never
 * allocates. */
bool sweep_gap_within(const Placed *placed, const Sweep *sweep, const Feature *feature,
                      double limit, SweepGap *gap);

/* How far a rule looks beyond a feature: beside it on its own face, and in space, mm. */
typedef struct Reach {
    double beside, away;
} Reach;

/* As far from a part as any running pass of the plate, or its holder, can get. */
Reach sweeps_reach(const Placed *placed);
