/* station.h: one place on a face that holds one part. */
#pragma once

#include "plate/schema.h"

/* The pose takes the part's own coordinates to the face's: first turned over about the part's X,
 * then rotated, then shifted. Holes, recesses and fittings that name the station go with it. */
typedef struct Station {
    FeatureId face;
    FeatureId part;
    Place at;
    Angle rotation;
    bool turned_over;
    char *label;
    FeatureId mirror_of; /* the station of the blade's other side, where there is one */
    List instead_of; /* FeatureId: stations whose parts are off while this one's lies over them */
    bool made;       /* stands in metal: may be used, never moved */
    bool locked;     /* the maker does not want it moved */
    char *unknown;
} Station;

extern const Schema station_schema;
