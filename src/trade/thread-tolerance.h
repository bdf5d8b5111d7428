/* thread-tolerance.h: the tolerances of metric threads, a table behind thread.h. */
#pragma once

#include "geometry/length.h"

typedef struct ThreadTolerance {
    const char *name;
    Length over, up_to; /* the range of diameters, its upper end included */
    Length pitch;
    Length allowance;      /* es of g, without its sign */
    Length external_major; /* Td, grade 6 */
    Length external_pitch; /* Td2, grade 6 */
    Length internal_pitch; /* TD2, grade 6 */
    Length internal_minor; /* TD1, grade 6 */
    const char *source;
} ThreadTolerance;
