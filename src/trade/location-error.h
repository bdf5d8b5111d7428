/* location-error.h: how far a part's finished profile can be off from the part's holes.
 *
 * A part sits by two holes on two locators. What is off: the play in both fits, the places of the
 * locators in the plate and of the holes in the part, the plate on its base, the squareness of
 * locator and spindle over the height, and unlike materials at another temperature. All lengths are
 * in mm, in the station's plane; the first locator is where the part is taken to be fixed for the
 * temperature.
 */
#pragma once

#include "geometry/error.h"
#include "geometry/point.h"

typedef struct Location {
    Point locators[2];
    double clearance[2];      /* greatest difference of diameters of hole and locator; 0 or more */
    double plate_position[2]; /* diameter of the zone each locator's centre may lie in */
    double part_position[2];  /* the same for the part's holes */
    bool relieved;            /* the second locator is relieved: it locates across the line alone */
    double repeat_shift;      /* how far the plate may be off on its base, any way */
    double repeat_turn;       /* degrees either way, about `base` */
    Point base;               /* the middle of the plate's base locators */
    double height;            /* from the plate's face to where it is cut */
    double squareness;        /* degrees a locator may lean */
    double temperature;       /* degrees C between setting up and cutting */
    double part_expansion;    /* um per m and degree C */
    double plate_expansion;
} Location;

typedef struct LocationError {
    double play, plate_position, part_position, repeat, squareness, temperature; /* greatest each */
    double greatest;        /* all at their worst at once */
    double root_sum_square; /* what is seldom passed, each being its own matter */
} LocationError;

/* The greatest shift at a point of the part. Play and positions: a rigid part, small turns; the
 * hole at locator i is no further than r_i from where it should be, so the shift at the point is
 * greatest on the rim of what both allow: max over n, a of  n.u a + |n.k1| sqrt(r1^2 - a^2) +
 * |n.k2| sqrt(r2^2 - a^2) with a along the line of the locators. The rest: shift + turn x distance;
 * height x tan(lean); distance from the first locator x difference of expansions x temperature.
 * `greatest` takes the r_i of play and positions together and adds the rest; root_sum_square
 * squares and adds the parts. False when the locators lie in one place or a figure is negative. */
bool location_error_at(const Location *location, Point at, LocationError *result, Error *error);

/* The greatest turn in degrees, and by root sum of squares: play and positions over the distance of
 * the locators, and the base's turn. False as above. */
bool location_turn(const Location *location, double *greatest, double *root_sum_square,
                   Error *error);
