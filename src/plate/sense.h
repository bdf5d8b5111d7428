/* sense.h: what a record must be beyond its fields' own limits. */
#pragma once

#include "plate/plate.h"

/* False with an error when the record, as part of this plate, means nothing: a part whose rings
 * make no outline, a hole with no steps, a nest with no station. References have been checked. */
bool record_sense(const Plate *plate, const Record *record, Error *error);
