/* recess-cutter.h: which cutters can mill a recess. */
#pragma once

#include "session/session.h"

/* How many times its diameter an end mill of usual length reaches (common practice, no source). */
#define CUTTER_REACH 3

typedef struct RecessCutter {
    Length largest;  /* diameter that leaves nothing standing in the inside corners; 0: none does */
    Length depth;    /* that its flutes must reach */
    Length smallest; /* diameter that reaches so deep with flutes of usual length */
    bool usual;      /* some cutter of usual length is neither too large nor too short */
} RecessCutter;

/* False where the number is no recess's. */
bool recess_cutter(const Placed *placed, FeatureId recess, RecessCutter *cutter);
