/* reference-hole: each inclined face has a reamed hole that a ball or pin stands in, by which the
 * face is picked up at the machine. */
#include "checks/rule.h"

enum { DEPTH, NEAR };

static const RuleLimit limits[] = {
    [DEPTH] = {"depth", 1.0, VALUE_COUNT, N_("diameters that a reference hole is reamed deep"),
               N_("common practice, no source")},
    [NEAR] = {"near", 25.0, VALUE_LENGTH, N_("how far a reference hole may lie from its face"),
              N_("common practice, no source")},
};

enum { CASE_NONE, CASE_ROUGH, CASE_SHALLOW, CASE_FAR };

static const RuleCase cases[] = {
    [CASE_NONE] =
        {LEVEL_CAUTION, VALUE_NONE,
         N_("{a} has no reference hole: nothing shows where it is once the plate is tilted"),
         N_("ream a hole for a ball or pin in it or near it, and name it in the face")},
    [CASE_ROUGH] = {LEVEL_CAUTION, VALUE_NONE,
                    N_("the reference hole of {a}, {b}, is neither reamed nor bored"),
                    N_("ream it for the ball or pin that stands in it")},
    [CASE_SHALLOW] = {LEVEL_CAUTION, VALUE_COUNT,
                      N_("the reference hole of {a}, {b}, is reamed {value} diameters deep; a pin "
                         "stands straight in {limit}"),
                      N_("ream it deeper")},
    [CASE_FAR] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("the reference hole of {a}, {b}, lies {value} from it; {limit} is good practice"),
         N_("choose one that lies {more} nearer")},
};

static Finding *report(RuleContext *context, int which, const Record *face, const Feature *hole,
                       double value, double limit)
{
    Finding *finding = rule_report(context, which, NULL, NULL, value, limit);
    const Frame *frame = placed_frame(context->placed, face->id);
    finding->face = face->id;
    finding->features[finding->feature_count++] = face->id;
    if (hole)
        finding->features[finding->feature_count++] = hole->id;
    if (hole && hole->face == face->id)
        finding->at = feature_at(hole);
    else if (frame)
        finding->at = (Point){frame->extent.pose.x, frame->extent.pose.y};
    finding->from = finding->to = finding->at;
    return finding;
}

/* The closest step: the narrowest that is reamed or bored. */
static const Step *close_step(const Hole *hole)
{
    const Step *close = NULL;
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        bool fine = step->kind == STEP_REAM || step->kind == STEP_BORE;
        if (fine && (!close || step->diameter < close->diameter))
            close = step;
    }
    return close;
}

static double distance_to_face(const Placed *placed, const Frame *frame, const Feature *hole)
{
    Gap gap;
    double height;
    const Frame *own = placed_frame(placed, hole->face);
    Point on_face = frame_from_space(frame, frame_to_space(own, feature_at(hole), 0), &height);
    Shape point = shape_circle(on_face, 0);
    shape_gap(&frame->extent, &point, &gap);
    return hypot(fmax(0, gap.distance), height);
}

static void check_hole(RuleContext *context, const Record *face, const Feature *hole)
{
    const Frame *frame = placed_frame(context->placed, face->id);
    const Hole *own = &placed_record(context->placed, hole->id)->hole;
    const Step *close = close_step(own);
    if (!close) {
        report(context, CASE_ROUGH, face, hole, 0, 0);
        return;
    }
    const Frame *of_hole = placed_frame(context->placed, hole->face);
    double metal = frame_depth_at(of_hole, feature_at(hole));
    double depth = close->through ? metal : length_to_mm(close->depth);
    double share = depth / length_to_mm(close->diameter);
    double away = distance_to_face(context->placed, frame, hole);
    if (falls_short(share, context->limits[DEPTH]))
        report(context, CASE_SHALLOW, face, hole, share, context->limits[DEPTH]);
    else if (falls_short(context->limits[NEAR], away))
        report(context, CASE_FAR, face, hole, away, context->limits[NEAR]);
}

static bool check_face(const Record *record, void *data)
{
    RuleContext *context = data;
    if (record->face.kind != FACE_INCLINED)
        return true;
    const Feature *hole = record->face.reference_hole
                              ? placed_find(context->placed, record->face.reference_hole)
                              : NULL;
    if (hole && hole->kind == FEATURE_HOLE)
        check_hole(context, record, hole);
    else
        report(context, CASE_NONE, record, NULL, 0, 0);
    return true;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    placed_each_record(context->placed, RECORD_FACE, check_face, context);
}

const Rule rule_reference_hole = {
    .slug = "reference-hole",
    .title = N_("Inclined face without a reference hole"),
    .scope = SCOPE_PLATE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
