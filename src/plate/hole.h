/* hole.h: one drilled place, a stack of coaxial steps. */
#pragma once

#include "plate/schema.h"

typedef enum StepKind {
    STEP_SPOT,
    STEP_DRILL,
    STEP_COUNTERBORE,
    STEP_COUNTERSINK,
    STEP_REAM,
    STEP_TAP,
    STEP_BORE
} StepKind;

/* How a tap's end is made, where the maker has said it. */
typedef enum StepTap {
    STEP_TAP_UNSTATED,
    STEP_TAP_PLUG,
    STEP_TAP_BOTTOMING,
    STEP_TAP_SPIRAL_FLUTE,
    STEP_TAP_FORMING
} StepTap;

/* Depths are from the face: the full diameter's depth for a drill, the full thread's for a tap. */
typedef struct Step {
    int kind;            /* StepKind */
    Length diameter;     /* of a tap: the thread's major diameter */
    Length depth;        /* of a through step: not used */
    bool through;        /* right through the plate */
    Angle point;         /* included angle of the drill's point, spot or countersink; 0 is flat */
    char *thread;        /* of a tap: its designation, or the insert's that it is tapped for */
    int tap;             /* of a tap: StepTap */
    Length upper, lower; /* limits of size: added to the diameter */
    char *unknown;
} Step;

/* No hole has more steps than this. */
#define STEPS_MOST 8

typedef struct Hole {
    FeatureId face;
    FeatureId
        station; /* its place is then in the part's own coordinates and goes with the station */
    Place at;
    List steps; /* Step, in the order they are made */
    char *label;
    Length position_tolerance; /* diameter of the zone that holds the axis; 0: the sheet's general
                                  one */
    FeatureId operation;       /* the one that makes it, or none chosen yet */
    bool made;
    bool locked;
    char *note;
    char *unknown;
} Hole;

extern const Schema hole_schema;

/* The words the file and the prints' tables are keyed by: "drill", "ream", … */
const char *step_kind_name(int kind);
/* The largest diameter of all steps; 0 without steps. */
Length hole_largest_diameter(const Hole *hole);
