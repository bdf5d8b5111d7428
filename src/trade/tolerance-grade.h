/* tolerance-grade.h: the standard tolerance grades of ISO 286-1, a table behind fit.h. */
#pragma once

#include "geometry/length.h"

typedef struct ToleranceGrade {
    const char *name;
    int grade;          /* 1 to 18 */
    Length over, up_to; /* the range of sizes, its upper end included */
    Length tolerance;
    const char *source;
} ToleranceGrade;
