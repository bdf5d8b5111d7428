/* snap.h: drawing a dragged place to the grid, the datum's lines, and other things' centres and
 * edges. */
#pragma once

#include "session/guide.h"
#include "session/session.h"

typedef struct SnapSettings {
    double grid;          /* mm; 0: no grid */
    double reach;         /* mm: how near a centre or edge must be to draw */
    bool features;        /* draw to other features */
    const Guides *guides; /* and to these; NULL: none */
} SnapSettings;

typedef struct Snap {
    Place at;             /* the place after snapping */
    bool on_x, on_y;      /* drawn to something other than the grid in that direction */
    FeatureId to_x, to_y; /* the feature it was drawn to, or ID_NONE for the datum */
} Snap;

/* Snaps a place on `face`; `except` (rising) is what is being dragged. Never allocates. The grid's
 * lines are counted from the datum. */
Snap snap_place(const Session *session, FeatureId face, Place at, const FeatureId *except,
                uint32_t except_count, const SnapSettings *settings);

typedef struct NearestGaps {
    bool has_edge, has_neighbour;
    Gap edge;      /* on_a on the feature, on_b on the face's edge */
    Gap neighbour; /* on_a on the feature, on_b on the neighbour */
    FeatureId neighbour_id;
} NearestGaps;

/* The live distances shown while `id` is dragged: to the nearest edge of its face, and to the
 * nearest other recess, fitting or part within `within` mm. */
NearestGaps nearest_gaps(const Placed *placed, FeatureId id, double within);
