/* fitting.h: what is put on the plate: locators, hold-downs and edge clamps. */
#pragma once

#include "plate/schema.h"

typedef enum FittingKind {
    FITTING_SHOULDER_SCREW, /* a locator that also holds down */
    FITTING_DOWEL,          /* a locator */
    FITTING_RELIEVED_PIN,   /* a locator that fixes one direction alone */
    FITTING_HOLD_DOWN,
    FITTING_EDGE_CLAMP
} FittingKind;

/* A locator or hold-down stands in a hole of the plate; an edge clamp stands in a slot. */
typedef struct Fitting {
    int kind; /* FittingKind */
    FeatureId station;
    FeatureId hole;    /* that it stands in; not for an edge clamp */
    FeatureId slot;    /* an edge clamp's */
    int32_t part_hole; /* the part's hole it goes through, counted from 1; 0: none */
    Place at; /* an edge clamp's middle, in the part's own coordinates where it has a station */
    Angle rotation;      /* an edge clamp's: the way it pushes, along its own X */
    char *size;          /* by standard and size */
    Length diameter;     /* of the shoulder, pin or screw's body */
    Length upper, lower; /* limits of size: added to the diameter */
    Length length;       /* of the shoulder or pin above what the part lies on, which is the face or
                            its nest's floor; an edge clamp's body along the way it pushes */
    Length width;        /* an edge clamp's body across that way */
    Length head_diameter;
    Length head_height;  /* above the part, or an edge clamp's above the face */
    Length travel_least; /* an edge clamp's reach beyond its body */
    Length travel_greatest;
    int64_t force; /* an edge clamp's, millionths of a newton */
    char *label;
    bool made;
    char *unknown;
} Fitting;

extern const Schema fitting_schema;

/* True for the kinds that fix a part's position. */
bool fitting_locates(const Fitting *fitting);
/* True for the kinds that press a part down. */
bool fitting_holds_down(const Fitting *fitting);
