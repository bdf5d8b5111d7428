/* named.h: faces and operations by the names that a person types. */
#pragma once

#include "plate/plate.h"

/* False with an error that lists the names there are. Capitals don't matter. */
bool face_named(const Plate *plate, const char *name, FeatureId *face, Error *error);
bool operation_named(const Plate *plate, const char *name, FeatureId *operation, Error *error);
