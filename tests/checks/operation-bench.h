/* operation-bench.h: plates with one part and operations, for the tests of the rules about cutters.
 * The plate is 200 x 150 x 20 mm of aluminium, the part a bar 60 x 20 x 3 with its lower left
 * corner at 50, 50. */
#pragma once

#include "support/plates.h"

#define UM 0.001

typedef struct Bench {
    Plate *plate;
    FeatureId part, station, operation;
} Bench;

Bench bench(int hole_count, const double *holes);

/* Adds a running operation of one pass with that cutter; `fill` (may be NULL) says more of it. */
void run(Bench *made, int where, double cutter, void (*fill)(Pass *pass, double figure),
         double figure);
/* Fits hardware at the last operation. */
void fit(Bench *made, FeatureId fitting);

/* A clamp of 12 x 10 whose jaw is `apart` above the bar's upper side, so high. */
FeatureId clamp(Bench *made, double apart, double height);
/* A head 3 to 6 above what the part lies on. */
void set_head(Bench *made, FeatureId fitting, double diameter);

/* The bar on a front face that leaves the top at 50 by 10 degrees, its upper side so far down the
 * slope; a bevel of 10 degrees along that side takes it from 3 to 1. */
Bench on_slope(double down);
