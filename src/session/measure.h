/* measure.h: the distance between any two edges or centres on a face. */
#pragma once

#include "placed/placed.h"

typedef enum SpotKind {
    SPOT_NONE,
    SPOT_CENTRE,    /* of a thing */
    SPOT_EDGE,      /* the whole edge of a thing */
    SPOT_FACE_EDGE, /* one side of the face */
    SPOT_POINT      /* a free place */
} SpotKind;

/* One end of what is measured. */
typedef struct Spot {
    SpotKind kind;
    FeatureId face;
    FeatureId feature; /* of a centre or an edge */
    Shape shape;       /* what is measured to: a point, the thing's shape, a segment */
} Spot;

/* What is meant at a place: a centre within `reach` mm, else the edge of a thing, else the face's
 * own edge, else the place itself. */
Spot spot_at(const Placed *placed, FeatureId face, Point at, double reach);
/* A thing's centre or its edge; of kind SPOT_NONE where there is no such thing. A part's centre is
 * the middle of its outline's box. */
Spot spot_of(const Placed *placed, FeatureId feature, bool centre);

typedef struct Measured {
    double distance; /* mm, the least; negative where the two overlap */
    double dx, dy;   /* mm from the first to the other, between the two nearest points */
    Point from, to;
} Measured;

/* False where the two lie on different faces, or one is nothing. Edges are measured where they are
 * nearest; two edges of the face that are parallel, square across. */
bool measure_between(const Spot *from, const Spot *to, Measured *measured);
