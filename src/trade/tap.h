/* tap.h: how deep a hole must be drilled for a tap. */
#pragma once

#include "trade/thread.h"

typedef enum TapKind {
    TAP_PLUG,         /* a chamfer of up to 5 threads */
    TAP_BOTTOMING,    /* up to 2 threads */
    TAP_SPIRAL_FLUTE, /* semi-bottoming, up to 3 threads; lifts its chips out */
} TapKind;

#define TAP_KIND_COUNT 3

/* "plug", "bottoming", "spiral-flute". */
const char *tap_kind_name(TapKind kind);
bool tap_kind_read(const char *name, TapKind *kind, Error *error);

/* The greatest chamfer in threads: ASME B94.9 (plug 3 to 5, bottoming 1 to 2; semi-bottoming 2 to
 * 3); from memory. */
double tap_chamfer_threads(TapKind kind);

/* The depth in mm to which a blind hole must be drilled at its full diameter so that `thread_depth`
 * mm have full threads: the chamfer, one pitch below the tap's end, and for plug taps up to 8 mm,
 * which have a male centre, half their diameter (the rule of ASME B18.29.2M's note on drilling
 * depths). The drill's point comes on top of it: drill_point_length. */
double tap_drill_depth(const Thread *thread, TapKind kind, double thread_depth);
