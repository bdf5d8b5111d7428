/* deviation.h: the fundamental deviations of ISO 286-1, a table behind fit.h. */
#pragma once

#include "geometry/length.h"

typedef struct Deviation {
    const char *name;
    const char *letter;              /* small for shafts, capital for holes */
    int grade_least, grade_greatest; /* the grades it holds for */
    Length over, up_to;              /* the range of sizes, its upper end included */
    Length deviation;
    const char *source;
} Deviation;
