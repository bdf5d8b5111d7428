/* hole-use.h: what a hole that the plate has already can do for a part. */
#pragma once

#include "refit/hardware.h"
#include "trade/dowel.h"
#include "trade/screw.h"
#include "trade/shoulder-screw.h"

/* All that matters of a hole besides its place. Holes of one use are alike to a refit. */
typedef struct HoleUse {
    const Thread *thread;             /* that it is tapped with, or NULL */
    Length reamed;                    /* nominal diameter of its reamed or bored step, or 0 */
    int pin_kind;                     /* of what stands in it now and needs no thread */
    Length pin, pin_upper, pin_lower; /* its size; pin 0: nothing does */
} HoleUse;

/* One way in which a hole of the plate serves a hole of the part. */
typedef struct HoleOption {
    bool serves;
    double play;       /* mm: how far the axes may be apart at the kindest sizes */
    double play_least; /* mm: how far they may always be */
    Hardware hardware;
} HoleOption;

typedef struct HoleOptions {
    HoleOption locate, hold;
} HoleOptions;

/* What the hole's steps allow. */
HoleUse hole_use(const Hole *hole);
/* Adds what stands in it. */
void hole_use_fitting(HoleUse *use, const Fitting *fitting);
bool hole_use_equal(const HoleUse *a, const HoleUse *b);
/* False when no part can use it. */
bool hole_use_any(const HoleUse *use);

/* How the hole can serve a part's hole. `clearance` (mm) is the most that a locator may be smaller
 * than the part's hole. */
HoleOptions hole_options(const HoleUse *use, const PartHole *part_hole, double clearance);

/* ---- for hardware.c and hole-use.c ---- */
Hardware hardware_of_shoulder(const ShoulderScrew *screw, const Thread *thread);
Hardware hardware_of_dowel(const Dowel *dowel);
Hardware hardware_of_screw(const Screw *screw, const Thread *thread);
