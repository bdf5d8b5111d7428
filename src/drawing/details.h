/* details.h: parts of a view drawn again at a larger scale, where the view has no room for their
 * labels. */
#pragma once

#include "drawing/flow.h"
#include "drawing/hole-table.h"

typedef struct Detail {
    Box area; /* mm on the face */
    char letter;
} Detail;

#define DETAILS_MOST 16

typedef struct Details {
    Detail items[DETAILS_MOST];
    size_t count;
    double scale;  /* mm on the sheet for one mm of the plate */
    size_t *of;    /* for each row of the table: the detail that labels it, from 1; 0: the view */
    bool *missing; /* for each row: its label found no place where it belongs */
} Details;

void details_start(Details *details, const HoleTable *table);
void details_end(Details *details);
/* None, as at the start. */
void details_clear(Details *details, const HoleTable *table);

/* Lays details so that each row that is missing, or was given to a detail before, lies in one no
 * larger than `width` by `height` mm on the sheet; those that lie in it as well go with it. False,
 * with none left, where that takes too many. */
bool details_plan(Details *details, const DrawingSource *source, const HoleTable *table,
                  FeatureId face, double width, double height);

/* Draws them on the flow's sheets, side by side where they have room. Returns how many labels found
 * no place. */
size_t details_draw(Details *details, Flow *flow, const DrawingSource *source,
                    const HoleTable *table, FeatureId face, unsigned kinds);
