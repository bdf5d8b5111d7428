/* engagement.h: how much thread a screw needs in the plate. */
#pragma once

#include "trade/material.h"
#include "trade/thread.h"

typedef struct Engagement {
    double by_rule;       /* mm: 1 diameter in steel, 1.5 in aluminium, 2 in polymers; common
                             practice */
    double screw_strips;  /* mm: from here on the screw breaks before its own thread strips */
    double plate_strips;  /* mm: from here on the screw breaks before the plate's thread strips */
    double external_area; /* mm2 a mm: what shears when the screw's thread strips */
    double internal_area; /* mm2 a mm: what shears when the plate's thread strips */
    double break_force;   /* N: tensile area by tensile strength */
} Engagement;

/* By FED-STD-H28/2: thread shear areas a unit of engagement
 *   screw: pi n Kn_max (1/(2n) + 0.57735 (Es_min - Kn_max))
 *   plate: pi n Ds_min (1/(2n) + 0.57735 (Ds_min - En_max))
 * with the limits of 2A/2B or 6g/6H; the screw's shear strength is half its tensile strength.
 * `screw_strength` is the screw's tensile strength, N/mm2, more than 0. */
bool engagement_needed(const Thread *thread, const Material *plate, double screw_strength,
                       Engagement *engagement, Error *error);

/* The force in N at which `length` mm of engagement fail, and what goes: "the screw breaks", "the
 * screw's thread strips", "the plate's thread strips". */
double engagement_failure(const Engagement *engagement, const Material *plate,
                          double screw_strength, double length, const char **what);
