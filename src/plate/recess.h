/* recess.h: slots and nests, the milled recesses. */
#pragma once

#include "plate/schema.h"

typedef enum RecessKind {
    RECESS_OBROUND,   /* a slot with round ends */
    RECESS_RECTANGLE, /* a slot or pocket with corner radii */
    RECESS_NEST,      /* the outline of the station's part, grown by a clearance */
    RECESS_BLANK_NEST /* the blank of the station's part, grown by a clearance */
} RecessKind;

typedef struct Recess {
    int kind; /* RecessKind */
    FeatureId face;
    FeatureId station; /* its place is then in the part's own coordinates; a nest needs one */
    Place at;          /* the middle of a slot; not used by a nest */
    Angle rotation;
    Length length; /* over all, along its own X */
    Length width;
    Length corner_radius; /* of a rectangle */
    Length clearance;     /* of a nest, all round */
    Length depth;         /* from the face */
    bool through;
    char *label;
    FeatureId operation;
    bool made;
    bool locked;
    char *unknown;
} Recess;

extern const Schema recess_schema;
