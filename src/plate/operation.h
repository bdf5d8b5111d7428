/* operation.h: one setting at the machine: which face, which hardware, which passes. */
#pragma once

#include "plate/schema.h"

typedef enum OperationKind {
    OPERATION_MAKING, /* makes the plate */
    OPERATION_RUNNING /* runs parts on it */
} OperationKind;

typedef enum PassWhere {
    PASS_OUTLINE_OUTSIDE,
    PASS_OUTLINE_INSIDE,
    PASS_BEVEL,
    PASS_HOLES
} PassWhere;

/* One cutter going round an outline, along a bevel or down holes. */
typedef struct Pass {
    char *name;
    int where; /* PassWhere */
    Length cutter_diameter;
    Length flute_length;
    Length corner_radius; /* half the diameter: a ball */
    Length holder_diameter;
    Length gauge_length; /* from the holder's end to the cutter's tip */
    Length depth_below; /* below the part's underside; of a drill: how far its full diameter goes */
    Angle point;        /* included angle of a drill's point below that; 0 is flat */
    Length stock_left;
    int64_t force; /* the cutter's greatest sideways force, millionths of a newton; 0: not known */
    char *unknown;
} Pass;

typedef struct Operation {
    char *name;
    int kind;      /* OperationKind */
    int32_t order; /* first to last within its kind */
    FeatureId face;
    List stations; /* FeatureId: those that run here; empty: all on the face, or all of the plate */
    List fitted;   /* FeatureId: the hardware that is on the plate meanwhile; empty: not said */
    List passes;   /* Pass */
    char *note;
    char *unknown;
} Operation;

extern const Schema operation_schema;

/* True for a running operation that works on the station of that number, which stands on that face.
 */
bool operation_runs(const Operation *operation, FeatureId station, FeatureId face);
/* True when one of its passes is of that kind (PassWhere). */
bool operation_has_pass(const Operation *operation, int where);
/* True when the hardware of that number is on the plate meanwhile. */
bool operation_has_fitted(const Operation *operation, FeatureId fitting);
