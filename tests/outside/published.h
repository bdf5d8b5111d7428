/* published.h: one value from outside the project beside ours.
 *
 * A published value is kept as it was printed. Ours is written with as many decimals and must come
 * out as the same text; the pair must also stand in README.md, so that the table there is never
 * behind. To make the table anew: PUBLISHED_TABLE=/some/file in the environment collects the rows.
 */
#pragma once

#include "geometry/length.h"

typedef enum Witness {
    SEEN,       /* read in a reprint of the source while this was written */
    FROM_MEMORY /* nobody had the page open */
} Witness;

/* Checks a figure in the unit that `theirs` is printed in ("in", "mm", "um", "mm2", "" …). */
void published(const char *figure, double ours, const char *theirs, const char *unit,
               const char *source, Witness witness);

/* The same for a length, worked out from whole nanometres in inches, mm or um by `unit`. */
void published_length(const char *figure, Length ours, const char *theirs, const char *unit,
                      const char *source, Witness witness);
