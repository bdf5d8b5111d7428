/* locators.h: a station's locators and their play, as the locating rules see them. */
#pragma once

#include "checks/rule.h"

#define LOCATORS_MOST 16

typedef struct Locator {
    const Feature *feature;
    const Fitting *fitting;
    const PartHole *part_hole;                  /* NULL: through none of the part's holes */
    Point at;                                   /* on the face */
    double clearance_least, clearance_greatest; /* of diameters, mm; 0 without a part's hole */
} Locator;

/* Fills in the station's locators by rising number, the first LOCATORS_MOST of them, and returns
 * how many it has. */
int station_locators(const Placed *placed, const Feature *station, Locator locators[LOCATORS_MOST]);
/* The part that the station holds; NULL when it has none. */
const Part *station_part(const Placed *placed, const Feature *station);
/* The diametral clearance of a part's hole over a pin or shoulder, by both limits of size. */
void locator_clearance(const PartHole *hole, const Fitting *fitting, double *least,
                       double *greatest);
