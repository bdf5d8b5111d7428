/* labels.h: the labels of a plan's features, placed where they meet nothing. */
#pragma once

#include "drawing/hole-table.h"
#include "drawing/placement.h"

/* A letter that stands beside a place, as those at the ends of a section's line. */
typedef struct LooseLabel {
    Point beside; /* mm on the sheet */
    char text[8];
} LooseLabel;

/* What is to be labelled. */
typedef struct LabelTask {
    const HoleTable *table;
    const bool *elsewhere; /* for each row: it has its label in another view; NULL: none has */
    bool *missing;         /* set for each row whose label found no place; NULL: nobody asks */
    const LooseLabel *loose;
    size_t loose_count;
    Box area; /* no label stands outside */
} LabelTask;

/* What is in the way of texts: all that is drawn on the sheet so far, and the insides of holes.
 * Free with placement_free. */
Placement *labels_obstacles(const Drawing *drawing, const DrawingSource *source, ViewMap map,
                            const HoleTable *table, Box area);

/* A request for a text of that width beside a hole, or for an area's label. Its `around` is to be
 * freed with g_free. */
LabelRequest labels_request(const DrawingSource *source, ViewMap map, const HoleTable *table,
                            FeatureId feature, double width);

/* Marks the front edge, and adds a label for each row: beside its hole or inside its recess or
 * part, else at a leader; and the loose ones. What has been drawn on the sheet so far is in the
 * way. Returns how many found no place; they are left out. */
size_t labels_draw(Drawing *drawing, const DrawingSource *source, ViewMap map, const FaceView *face,
                   const LabelTask *task);
