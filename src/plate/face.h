/* face.h: a flat side of the plate that is worked. */
#pragma once

#include "plate/schema.h"

typedef enum FaceKind { FACE_TOP, FACE_INCLINED } FaceKind;

/* An inclined face leaves the top at the break line, falls away from it to the left of the way from
 * `from` to `to`, and reaches `extent` down its own slope. Its own origin is at `from`; its Y
 * points up the slope and its X from `to` towards `from`, so that seen square on from outside X is
 * to the right of Y, and all of the face has an X and a Y of 0 or less. */
typedef struct Face {
    char *name;
    int kind;   /* FaceKind */
    Place from; /* the break line on the top */
    Place to;
    Angle angle;   /* below the top */
    Length extent; /* down the slope */
    FeatureId reference_hole;
    char *unknown;
} Face;

extern const Schema face_schema;
