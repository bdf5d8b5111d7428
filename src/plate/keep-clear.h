/* keep-clear.h: an area and height that nothing may enter. */
#pragma once

#include "plate/schema.h"

typedef struct KeepClear {
    FeatureId face;
    char *name; /* why it is there */
    Place at;   /* its middle */
    Angle rotation;
    Length length, width; /* over all; equal with a corner radius of half of it: a circle */
    Length corner_radius;
    Length height; /* above the face; 0: however high */
    Length depth;  /* below the face, for the base's studs: 0: none */
    bool locked;
    char *unknown;
} KeepClear;

extern const Schema keep_clear_schema;
