/* hole-profile.h: what is left to see of a hole's steps once all of them are cut. */
#pragma once

#include "plate/hole.h"

/* One stretch of a hole, from the one before it (or the face) down to its own bottom. */
typedef struct ProfileStep {
    int kind;      /* StepKind */
    double radius; /* mm; at the face for a cone */
    double bottom; /* mm below the face, 0 or more: where the full radius ends */
    double tip;    /* where its cone ends: the drill's point; else the bottom */
} ProfileStep;

typedef struct HoleProfile {
    ProfileStep steps[STEPS_MOST]; /* from the widest and shallowest to the narrowest and deepest */
    size_t count;
    double thread_radius; /* mm, of the major diameter; 0 without a thread */
    double thread_bottom;
} HoleProfile;

/* `thickness` is how deep a through step goes, mm. A step that another one cuts away whole is left
 * out: the drill before a reamer, the spot below a larger drill. Cones of spots and countersinks
 * have a bottom of 0 and a tip below it. */
HoleProfile hole_profile(const Hole *hole, double thickness);
