/* plate-holes.h: the holes of a plate that a part might use, face by face. */
#pragma once

#include "checks/checker.h"
#include "refit/match.h"

typedef struct PlateHoles {
    GArray *holes; /* MatchHole, those of one face together */
    GArray *faces; /* FaceHoles */
    GArray *uses;  /* HoleUse, each once */
} PlateHoles;

typedef struct FaceHoles {
    FeatureId face;
    uint32_t first, count; /* in holes */
} FaceHoles;

/* Gathers them. Holes that belong to the base (on its pins and pull-downs) are left out, as are
 * those that no part can use. */
void plate_holes_init(PlateHoles *holes, const Placed *placed);
void plate_holes_clear(PlateHoles *holes);
