/* id.h: the number of a record in a plate. Numbers are never used twice in one plate. */
#pragma once

#include <stdint.h>

typedef uint32_t FeatureId;

#define ID_NONE ((FeatureId)0)
/* The plate's own settings. */
#define ID_SETTINGS ((FeatureId)1)
/* The face `top`, which every plate has. */
#define ID_TOP ((FeatureId)2)
/* The first number that is free in a new plate. */
#define ID_FIRST_FREE ((FeatureId)3)
/* Numbers stay below this, so that a table by number stays small. */
#define ID_MOST ((FeatureId)10000000)
