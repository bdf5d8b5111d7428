/* step.h: one thing that one tool does at one place. */
#pragma once

#include "geometry/point.h"
#include "plate/id.h"

#include <stdint.h>

typedef struct PlanStep {
    FeatureId feature; /* the hole or recess */
    int32_t hole_step; /* which of the hole's own; -1: a spot that the plan adds, or a recess */
    uint32_t tool;     /* index among the plan's tools */
    Point at;          /* mm on the face: the hole's axis, a recess's middle */
    double start;      /* mm below the face: where the metal begins, in a recess cut before */
    double metal;      /* mm below the face: where it ends along the axis; 0 for recesses */
    double tip;        /* mm below the face: where the tool's very end goes */
    double full;       /* mm below the face: how deep the hole has its full diameter or thread */
    double peck;       /* mm a peck; 0: in one go */
    bool through;
    bool close; /* of a close-tolerance hole */
} PlanStep;
