/* placed-seat.h: what a station's part lies on: its part and its hardware are worked out to stand
 * on that. */
#pragma once

#include "placed/placed.h"

/* The floor of the deepest blind nest that the station's part lies in, mm below the face; 0 without
 * one. Never allocates. */
double placed_seat(const Placed *placed, FeatureId station);

/* The part of a station; NULL when it has none. */
const Record *placed_part(const Placed *placed, FeatureId station);

/* A station's blank in place of its part, standing where that does; the part where it has no blank.
 */
Feature placed_seated_blank(const Placed *placed, const Feature *station);
