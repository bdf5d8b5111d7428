/* refit-change.h: what the checks find before and after an answer, side by side. */
#pragma once

#include "refit/refit.h"

/* A trouble before, one after, or both where it is the same trouble on; NULL: there is none. */
typedef struct RefitChange {
    const Finding *before, *after;
} RefitChange;

/* The rows, an array of RefitChange to unref: of `before` (refit_before) and of the answer's
 * findings each stands in one, paired by rule and case; worst first. Both must outlive it. */
GArray *refit_changes(const FindingList *before, const RefitAnswer *answer);
