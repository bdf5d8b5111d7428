/* alternatives.h: stations of which one at a time can be loaded. */
#pragma once

#include "placed/placed.h"

/* True for two stations that have hardware in one and the same hole of the plate, and for two of
 * which one says that it takes the other's place while their parts do lie in one place: what holds
 * the one's part is off while the other's is on, as where an old plate took a new part. Their parts
 * never meet. */
bool stations_are_alternatives(const Placed *placed, FeatureId a, FeatureId b);
