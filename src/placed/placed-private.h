/* placed-private.h: what a Placed keeps. Private to placed. */
#pragma once

#include "placed/dependents.h"
#include "placed/placed.h"

/* One record and what was worked out of it. In an overlay a record may be NULL: gone. */
typedef struct Entry {
    FeatureId id;
    uint32_t shown; /* the show that it belongs to, in an overlay */
    const Record *record;
    Outline *outline; /* of a part */
    GPtrArray *rings; /* of a part with openings: each ring as an Outline of its own; else NULL */
    bool has_feature;
    FeatureId indexed_face; /* the face whose index knows it, or ID_NONE */
    Feature feature;
} Entry;

typedef struct FaceIndex {
    FeatureId face;
    Index *index;
} FaceIndex;

struct Placed {
    const Placed *under;
    GArray *entries;        /* Entry, in no order */
    GArray *slots;          /* uint32_t by number: the entry's place plus 1, or 0 */
    GArray *marks;          /* uint32_t by number: the round that last touched it */
    GArray *touched;        /* FeatureId */
    GArray *left;           /* FeatureId: stations that something stood on before */
    GArray *clamp_marks;    /* as `marks`, of clamps */
    GArray *clamps;         /* FeatureId: clamps that something changed before */
    GArray *frames;         /* Frame; in an overlay only when it changes them */
    GArray *faces;          /* FaceIndex */
    GArray *running;        /* FeatureId; in an overlay only when it changes operations */
    Dependents *dependents; /* not in an overlay */
    FeatureId base;
    uint32_t round;
    bool all_touched;
    bool own_running; /* `running` is this level's own, not the one's below */
};

/* This level's own entry of a number, or NULL. */
Entry *placed_entry(const Placed *placed, FeatureId id);

/* The beginning of working out what a change reaches. Each changed number is then touched, and the
 * station that it stood on before is left. */
void placed_begin_round(Placed *placed);
void placed_touch(Placed *placed, FeatureId id);
void placed_leave_station(Placed *placed, const Record *before);
/* Then all that stands on those, and the stations that they stand on, are touched: what is worked
 * out anew. */
void placed_reach(Placed *placed);
/* Then, for each of these where it was and where it is now, what is where it was but has to do with
 * it: when it is something cut, the stations whose parts lie over it, and the edge clamps that push
 * at blanks it lies behind; when it is a part, the edge clamps that may push at it. NULL is let
 * through. */
void placed_reach_near(Placed *placed, const Feature *feature);
/* Last, puts what is touched in order. */
void placed_end_round(Placed *placed);
