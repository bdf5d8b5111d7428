/* offcut-loose: waste that a profile cut leaves in one piece is held, or it is thrown. */
#include "checks/passes.h"

enum { SIZE };

static const RuleLimit limits[] = {
    [SIZE] = {"size", 1.0, VALUE_LENGTH, N_("width of a piece of waste that does no harm"),
              N_("common practice, no source")},
};

enum { CASE_AROUND, CASE_OPENING };

static const RuleCase cases[] = {
    [CASE_AROUND] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("once the profile of {a} is cut, waste of its blank up to {value} wide is "
            "held by nothing"),
         N_("leave the edge clamps on or put a hold-down in the waste, cut it away first, "
            "or use a blank nearer to the part's size")},
    [CASE_OPENING] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("the piece cut out of an opening of {a} is up to {value} wide and held by "
            "nothing"),
         N_("put a hold-down through it, use a cutter that leaves no piece, or mill the "
            "opening out")},
};

typedef struct Holding {
    const Placed *placed;
    const Record *operation;
    const Feature *station;
    const Outline *opening; /* NULL: of the blank */
    bool found;
} Holding;

/* A clamp reaches the blank when its travel does. */
static bool clamp_holds(const Holding *holding, const Feature *clamp)
{
    Gap gap;
    const Fitting *fitting = &placed_record(holding->placed, clamp->id)->fitting;
    shape_gap(&clamp->shape, &holding->station->blank, &gap);
    return gap.distance <= length_to_mm(fitting->travel_greatest);
}

static bool screw_holds(const Holding *holding, const Feature *screw)
{
    Point own = pose_point(pose_inverse(holding->station->shape.pose), feature_at(screw));
    if (!fitting_holds_down(&placed_record(holding->placed, screw->id)->fitting))
        return false;
    if (holding->opening)
        return outline_contains(holding->opening, own);
    return shape_contains(&holding->station->blank, feature_at(screw)) &&
           !outline_contains(holding->station->shape.outline, own);
}

static bool look_at(const Feature *feature, void *data)
{
    Holding *holding = data;
    if (feature->kind != FEATURE_FITTING ||
        !stands_at(holding->placed, holding->operation, feature))
        return true;
    bool clamp = placed_record(holding->placed, feature->id)->fitting.kind == FITTING_EDGE_CLAMP;
    holding->found =
        clamp ? !holding->opening && clamp_holds(holding, feature) : screw_holds(holding, feature);
    return !holding->found;
}

/* Hardware on the blank or within a clamp's reach of it. */
#define CLAMP_REACH 30.0

static bool is_held(const RuleContext *context, const Record *operation, const Feature *station,
                    const Outline *opening)
{
    Holding holding = {context->placed, operation, station, opening, false};
    const Shape *lying = station->has_blank ? &station->blank : &station->shape;
    placed_each_near(context->placed, station->face, box_grown(shape_box(lying), CLAMP_REACH),
                     look_at, &holding);
    return holding.found;
}

/* The cutter takes away all that is no further from the outline than this. */
static double cut_away(const Pass *pass)
{
    return length_to_mm(pass->cutter_diameter + pass->stock_left);
}

/* Of a blank, what is furthest from a part is a corner of it; exact for parts that bulge nowhere
 * inwards, and for others no more than there is. */
static double waste_around(const Feature *station, const Pass *pass)
{
    static const double signs[4][2] = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}};
    const Shape *blank = &station->blank;
    double widest = 0;
    for (int i = 0; i < 4; i++) {
        Point corner = pose_point(blank->pose, (Point){signs[i][0] * blank->half_length,
                                                       signs[i][1] * blank->half_width});
        Point own = pose_point(pose_inverse(station->shape.pose), corner);
        double away = outline_distance(station->shape.outline, own, NULL) - cut_away(pass);
        widest = fmax(widest, away);
    }
    return widest;
}

#define PROBES 8

/* Twice the way from the middle of the opening, or from some other place of it, to its border, less
 * what is cut; exact for round and square ones, no more than there is for others. */
static double piece_of(const Outline *opening, const Pass *pass)
{
    Box box = outline_box(opening);
    double deepest = 0;
    for (int i = 1; i < PROBES; i++) {
        for (int k = 1; k < PROBES; k++) {
            Point p = {box.x0 + (box.x1 - box.x0) * i / PROBES,
                       box.y0 + (box.y1 - box.y0) * k / PROBES};
            deepest = fmax(deepest, -outline_distance(opening, p, NULL));
        }
    }
    return 2 * (deepest - cut_away(pass));
}

static void check_openings(RuleContext *context, const Record *operation, const Feature *station,
                           const Pass *pass)
{
    FeatureId part = placed_record(context->placed, station->id)->station.part;
    size_t count = outline_ring_count(station->shape.outline);
    for (size_t ring = 1; ring < count; ring++) {
        const Outline *opening = placed_ring(context->placed, part, ring);
        double width = opening ? piece_of(opening, pass) : 0;
        if (!falls_short(context->limits[SIZE], width) ||
            is_held(context, operation, station, opening))
            continue;
        Finding *finding = operation_report(context, CASE_OPENING, operation, station, NULL, width,
                                            context->limits[SIZE]);
        Box box = outline_box(opening);
        finding->at =
            pose_point(station->shape.pose, (Point){(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2});
        return;
    }
}

static void check_operation(RuleContext *context, const Record *operation, const Feature *station,
                            void *data)
{
    const List *passes = &operation->operation.passes;
    for (uint32_t i = 0; i < passes->count; i++) {
        const Pass *pass = LIST_AT(passes, Pass, i);
        if (pass->cutter_diameter <= 0)
            continue;
        if (pass->where == PASS_OUTLINE_INSIDE)
            check_openings(context, operation, station, pass);
        if (pass->where != PASS_OUTLINE_OUTSIDE || !station->has_blank)
            continue;
        double width = waste_around(station, pass);
        if (falls_short(context->limits[SIZE], width) &&
            !is_held(context, operation, station, NULL))
            operation_report(context, CASE_AROUND, operation, station, NULL, width,
                             context->limits[SIZE]);
    }
}

static bool check_station(const Feature *feature, void *data)
{
    if (feature->kind == FEATURE_PART)
        each_operation(data, feature, check_operation, NULL);
    return true;
}

/* Clamps belong to no station, so all are looked at after any change. */
static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    placed_each(context->placed, check_station, context);
}

const Rule rule_offcut_loose = {
    .slug = "offcut-loose",
    .title = N_("Loose waste"),
    .scope = SCOPE_PLATE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
