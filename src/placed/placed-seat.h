/* placed-seat.h: what a station's part lies on, and how high its hardware stands because of it. */
#pragma once

#include "placed/placed.h"

/* The floor of the deepest blind nest that the station's part lies in, mm below the face; 0 without
 * one. Never allocates. */
double placed_seat(const Placed *placed, FeatureId station);

/* The part of a station; NULL when it has none. */
const Record *placed_part(const Placed *placed, FeatureId station);

/* The feature with its heights where it really stands: a part, and a screw or pin of a station, by
 * the depth of the nest lower than on the face; all else as it is. */
Feature placed_seated(const Placed *placed, const Feature *feature);

/* A station's blank in place of its part; the part where it has no blank. */
Feature placed_seated_blank(const Placed *placed, const Feature *station);
