/* fit.h: limits of size and fits, ISO 286, for 1 to 50 mm; inch limits may be typed instead. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stddef.h>

typedef struct SizeLimits {
    Length greatest, least;
} SizeLimits;

typedef enum FitMeaning {
    FIT_WILL_NOT_GO, /* more interference than a press fit stands */
    FIT_PRESS,       /* there may be interference: it has to be pressed or tapped in */
    FIT_SLIDE,       /* goes by hand and locates */
    FIT_LOOSE,       /* goes with more play than a locating fit has */
} FitMeaning;

typedef struct Fit {
    Length nominal;
    SizeLimits hole, shaft;
    Length clearance_greatest, clearance_least; /* negative: interference */
    FitMeaning meaning;
} Fit;

/* The tolerance of grade IT1 to IT18 in micrometres' worth of nanometres for a nominal size from 1
 * to 50 mm (ISO 286-1). False outside them. */
bool fit_grade_tolerance(Length nominal, int grade, Length *tolerance);

/* The limits of a tolerance class: a letter or two and a grade, capital for a hole ("H7", "JS6"),
 * small for a shaft ("g6", "m6"); nominal sizes from 1 to 50 mm (ISO 286-1 and 286-2). What the
 * standard does not define (t below 24 mm, K9 above 3 mm) is refused with a sentence. */
bool fit_class_limits(Length nominal, const char *tolerance_class, SizeLimits *limits,
                      Error *error);

/* Reads "10H7/g6", "0.25in H7/m6", "8 F8/h6": a nominal size (mm where no unit stands), the hole's
 * class and the shaft's. */
bool fit_read(const char *text, Fit *fit, Error *error);

/* Fills clearances and meaning from the limits. The meaning is common practice, no source: up to
 * 0.001 of the diameter and 0.01 mm more of interference can be pressed; a fit that always has
 * clearance slides while its greatest clearance is no more than IT10 of the nominal size. */
void fit_of_limits(Length nominal, SizeLimits hole, SizeLimits shaft, Fit *fit);

/* "will not go", "press", "slide", "loose". */
const char *fit_meaning_text(FitMeaning meaning);
