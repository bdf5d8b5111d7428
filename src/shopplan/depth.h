/* depth.h: how deep a tool goes, with its point, its lead and what it must come out by. */
#pragma once

#include "placed/frame.h"
#include "shopplan/tool.h"

/* How far a tool's full diameter comes out below a through hole: 1 mm, about 0.04 in; common
 * practice, no source. */
#define BREAKTHROUGH 1.0

/* The point a through hole is drilled with where the plate states none: 118 degrees, the longest of
 * the usual ones, so that a flatter one comes through as well. Common practice, no source. */
#define USUAL_POINT (118 * ANGLE_DEGREE)
/* Spot drills and countersinks where none is stated. */
#define USUAL_CONE (90 * ANGLE_DEGREE)

/* Deeper than this many diameters a drill is lifted out between bites (pecked); common practice, no
 * source. A bite is one diameter in aluminium and half of one in steel. */
#define PECK_FROM 3.0

/* What is known of the place that a hole is made in. */
typedef struct DepthContext {
    double metal;    /* mm below the face: where it ends along the axis, at the side of the largest
                        step where it ends last */
    double start;    /* mm below the face: where the metal begins */
    double drilled;  /* mm: full diameter's depth of what was drilled or bored before; 0: none */
    bool is_through; /* something drilled before goes right through */
    int metal_kind;  /* MetalKind */
} DepthContext;

typedef struct ToolDepth {
    double tip, full, peck; /* mm below the face, as in step.h */
    bool through;
    Angle point;    /* of the tool */
    int tap;        /* StepTap, chosen where the plate states none */
    double pitch;   /* mm, of a tap; 0: its thread is in no table, so that its lead is a guess */
    double missing; /* mm of full diameter or thread that there is no room for; 0: all is well */
} ToolDepth;

/* mm of metal below a point of the face to the plate's underside, along the tool's axis, on the
 * side of a circle of `radius` mm where there is most. */
double metal_below(const Frame *frame, const Stock *stock, Point at, double radius);

/* The depths of one of a hole's steps.
 * - drill: blind, depth + point; through, metal + BREAKTHROUGH + point;
 * - spot and countersink: the stated depth is the tip's;
 * - reamer: its lead (a quarter of the diameter, at most 1.5 mm; common practice, no source) comes
 *   on top, no deeper than what is drilled;
 * - tap: full thread + chamfer (trade/tap.h) + the male centre of small plug taps. Where the kind
 *   is not stated the longest chamfer that the drilled depth leaves room for is taken: plug,
 *   spiral flute, bottoming;
 * - counterbore and boring bar: as stated; through, metal + BREAKTHROUGH. */
ToolDepth tool_depth(const Step *step, const DepthContext *context);

/* The spot that the plan adds before a hole whose smallest diameter is `diameter` mm: a 90 degree
 * cone four fifths as wide, so that the drill's lips start on a slope and no ring is left; no wider
 * than the spot drill and no deeper than half the metal. Common practice, no source. */
ToolDepth spot_depth(double diameter, double spot_drill, const DepthContext *context);
