/* gauge-blocks.h: stacks of gauge blocks, the fewest blocks for a height. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stddef.h>

typedef enum GaugeSet {
    GAUGE_INCH_81, /* 0.1001-0.1009 by 0.0001, 0.101-0.149 by 0.001, 0.050-0.950 by 0.050, 1-4 in */
    GAUGE_METRIC_47, /* 1.005, 1.01-1.09 by 0.01, 1.1-1.9 by 0.1, 1-24 by 1, 25-100 by 25 mm */
} GaugeSet;

#define GAUGE_BLOCKS_MOST 16

typedef struct GaugeStack {
    Length blocks[GAUGE_BLOCKS_MOST]; /* the smallest first */
    size_t count;
    Length height;
    Length residual; /* wanted height less the stack's */
} GaugeStack;

/* What a set is made of, for printing beside a stack. */
const char *gauge_set_text(GaugeSet set);

/* The blocks of a set in the order of their size; `blocks` has room for 96. Returns their number.
 */
size_t gauge_set_blocks(GaugeSet set, Length *blocks);

/* The stack nearest to `height`, and of those one with the fewest blocks. Heights from 0 up to
 * 300 mm. Each block is used once. */
bool gauge_stack(Length height, GaugeSet set, GaugeStack *stack, Error *error);

/* Writes "0.1006 + 0.122 + 0.300 in". */
size_t gauge_stack_text(const GaugeStack *stack, GaugeSet set, char *text, size_t size);
