#include "shopplan/depth.h"

#include "checks/hardware.h"
#include "trade/drill.h"
#include "trade/tap.h"

/* Chamfer of a forming tap in threads; common practice, no source (trade/tap.h has the others). */
#define FORMING_CHAMFER 4.0
/* A thread in no table is taken to have a pitch of a fifth of its diameter, coarser than any of the
 * coarse series from M3 up. */
#define GUESSED_PITCH 0.2
#define REAMER_LEAD 0.25
#define REAMER_LEAD_MOST 1.5

double metal_below(const Frame *frame, const Stock *stock, Point at, double radius)
{
    Space on_face = frame_to_space(frame, at, 0);
    double cosine = frame->normal.z;
    double sine = sqrt(fmax(0, 1 - cosine * cosine));
    return (on_face.z + length_to_mm(stock->thickness)) / cosine + radius * sine / cosine;
}

static double cone_height(Length diameter, Angle point)
{
    return point > 0 ? drill_point_length(length_to_mm(diameter), angle_to_degrees(point)) : 0;
}

static bool goes_through(const Step *step, const DepthContext *context)
{
    return step->through || length_to_mm(step->depth) >= context->metal;
}

/* The full diameter's depth of a tool without a lead. */
static double plain_depth(const Step *step, const DepthContext *context)
{
    return goes_through(step, context) ? context->metal + BREAKTHROUGH : length_to_mm(step->depth);
}

static void drill_depth(const Step *step, const DepthContext *context, ToolDepth *depth)
{
    double diameter = length_to_mm(step->diameter);
    if (depth->through && !depth->point)
        depth->point = USUAL_POINT;
    depth->full = plain_depth(step, context);
    depth->tip = depth->full + cone_height(step->diameter, depth->point);
    if (depth->full - context->start > PECK_FROM * diameter)
        depth->peck = context->metal_kind == METAL_STEEL ? diameter / 2 : diameter;
}

static void cone_depth(const Step *step, ToolDepth *depth)
{
    if (!depth->point)
        depth->point = USUAL_CONE;
    double height = cone_height(step->diameter, depth->point);
    depth->through = false;
    depth->tip = step->through ? height : length_to_mm(step->depth);
    depth->full = fmax(0, depth->tip - height);
}

static void ream_depth(const Step *step, const DepthContext *context, ToolDepth *depth)
{
    double lead = fmin(REAMER_LEAD * length_to_mm(step->diameter), REAMER_LEAD_MOST);
    depth->full = plain_depth(step, context);
    depth->tip = depth->full + lead;
    if (!context->is_through && depth->tip > context->drilled) {
        double wanted = depth->through ? context->metal : depth->full;
        depth->tip = context->drilled;
        depth->full = fmax(0, depth->tip - lead);
        depth->missing = fmax(0, wanted - depth->full);
    }
}

static TapKind trade_tap(int tap)
{
    return tap == STEP_TAP_BOTTOMING      ? TAP_BOTTOMING
           : tap == STEP_TAP_SPIRAL_FLUTE ? TAP_SPIRAL_FLUTE
                                          : TAP_PLUG;
}

static double tap_chamfer(int tap)
{
    return tap == STEP_TAP_FORMING ? FORMING_CHAMFER : tap_chamfer_threads(trade_tap(tap));
}

/* From the last full thread to the tap's end. */
static double tap_lead(const Thread *thread, int tap, double pitch)
{
    if (thread && tap != STEP_TAP_FORMING)
        return tap_drill_depth(thread, trade_tap(tap), 0) - pitch;
    return tap_chamfer(tap) * pitch;
}

static void tap_depth(const Step *step, const DepthContext *context, ToolDepth *depth)
{
    static const int kinds[] = {STEP_TAP_PLUG, STEP_TAP_SPIRAL_FLUTE, STEP_TAP_BOTTOMING};
    Thread known;
    const Thread *thread = hardware_tapped_thread(step, &known) ? &known : NULL;
    double pitch = thread ? thread_pitch(thread) : GUESSED_PITCH * length_to_mm(step->diameter);
    double wanted = depth->through ? context->metal : length_to_mm(step->depth);
    depth->pitch = thread ? pitch : 0;
    depth->tap = step->tap;
    if (!step->tap)
        for (size_t i = 0; i < G_N_ELEMENTS(kinds); i++) {
            depth->tap = kinds[i];
            if (context->is_through ||
                wanted + tap_lead(thread, kinds[i], pitch) + pitch <= context->drilled)
                break;
        }
    double lead = tap_lead(thread, depth->tap, pitch);
    depth->full = wanted + (depth->through ? pitch : 0);
    depth->tip = depth->full + lead;
    /* One pitch stays free between the tap's end and the drill's cone. */
    double room = context->is_through ? INFINITY : context->drilled - pitch;
    if (depth->tip > room) {
        depth->tip = fmax(0, room);
        depth->full = fmax(0, depth->tip - lead);
        depth->missing = fmax(0, wanted - depth->full);
    }
}

ToolDepth tool_depth(const Step *step, const DepthContext *context)
{
    ToolDepth depth = {.through = goes_through(step, context), .point = step->point};
    switch (step->kind) {
    case STEP_DRILL:
        drill_depth(step, context, &depth);
        break;
    case STEP_SPOT:
    case STEP_COUNTERSINK:
        cone_depth(step, &depth);
        break;
    case STEP_REAM:
        depth.point = 0;
        ream_depth(step, context, &depth);
        break;
    case STEP_TAP:
        depth.point = 0;
        tap_depth(step, context, &depth);
        break;
    default:
        depth.full = depth.tip = plain_depth(step, context);
        depth.point = 0;
        break;
    }
    return depth;
}

ToolDepth spot_depth(double diameter, double spot_drill, const DepthContext *context)
{
    double mouth = fmin(0.8 * diameter, spot_drill);
    double tip = fmin(mouth / 2, (context->metal - context->start) / 2);
    return (ToolDepth){.tip = context->start + tip, .point = USUAL_CONE};
}
