/* inside-corner: corners that are tighter than the cutter: of the part's outline and openings as
 * they are cut, and of the nest or pocket that a part or a square blank is to go into. */
#include "checks/corners.h"
#include "checks/passes.h"
#include "geometry/section.h"

enum { LEFT };

static const RuleLimit limits[] = {
    [LEFT] = {"left", 0.01, VALUE_LENGTH, N_("metal that a cutter may leave in an inside corner"),
              N_("common practice, no source")},
};

enum { CASE_OUTLINE, CASE_OPENING, CASE_NEST, CASE_POCKET };

static const RuleCase cases[] = {
    [CASE_OUTLINE] = {LEVEL_CAUTION, VALUE_LENGTH,
                      N_("at {operation} the cutter leaves {value} of metal in an inside corner of "
                         "the part of {a}; up to {limit} is allowed"),
                      N_("finish with a smaller cutter, or round the corner off")},
    [CASE_OPENING] = {LEVEL_CAUTION, VALUE_LENGTH,
                      N_("at {operation} the cutter leaves {value} of metal in a corner of an "
                         "opening in the part of {a}; up to {limit} is allowed"),
                      N_("finish with a smaller cutter, or round the corner off")},
    [CASE_NEST] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("what goes in {b} at {a} has corners that need a clearance of {limit} in a nest "
            "milled with the cutter of {operation}; it has {value}"),
         N_("mill the nest with a smaller cutter, give it {less} more clearance, or relieve "
            "its corners")},
    [CASE_POCKET] = {LEVEL_STOP, VALUE_LENGTH,
                     N_("the square blank of {a} meets the round corners of {b} by {over}"),
                     N_("make the pocket's corners tighter, relieve them, or make it larger")},
};

/* --- as the part is cut ----------------------------------------------------------------------- */

/* The smallest cutter that goes round so, among those that leave least. */
typedef struct Finish {
    int where;
    const Record *operation; /* NULL: none */
    Length stock_left, diameter;
} Finish;

static void find_finish(RuleContext *context, const Record *operation, const Feature *station,
                        void *data)
{
    Finish *finish = data;
    const List *passes = &operation->operation.passes;
    for (uint32_t i = 0; i < passes->count; i++) {
        const Pass *pass = LIST_AT(passes, Pass, i);
        bool finer =
            !finish->operation || pass->stock_left < finish->stock_left ||
            (pass->stock_left == finish->stock_left && pass->cutter_diameter < finish->diameter);
        if (pass->where == finish->where && pass->cutter_diameter > 0 && finer)
            *finish = (Finish){finish->where, operation, pass->stock_left, pass->cutter_diameter};
    }
}

typedef struct Tightest {
    double cutter; /* its radius */
    double figure;
    Point at;
} Tightest;

static bool leave_metal(const Corner *corner, void *data)
{
    Tightest *tightest = data;
    double left = corner_metal_left(corner, tightest->cutter);
    if (left > tightest->figure) {
        tightest->figure = left;
        tightest->at = corner->at;
    }
    return true;
}

static void report_at(Finding *finding, const Feature *station, Point own)
{
    Point at = pose_point(station->shape.pose, own);
    rule_report_between(finding, at, at);
}

static void check_rings(RuleContext *context, const Feature *station, int where, int which)
{
    Finish finish = {.where = where};
    each_operation(context, station, find_finish, &finish);
    const Record *part = placed_part(context->placed, station->id);
    const Outline *outline = part ? placed_outline(context->placed, part->id) : NULL;
    if (!finish.operation || !outline)
        return;
    bool outside = where == PASS_OUTLINE_OUTSIDE;
    size_t end = outside ? 1 : outline_ring_count(outline);
    Tightest tightest = {.cutter = length_to_mm(finish.diameter) / 2};
    for (size_t ring = outside ? 0 : 1; ring < end; ring++)
        each_corner(outline, ring, leave_metal, &tightest);
    if (!falls_short(context->limits[LEFT], tightest.figure))
        return;
    Finding *finding = operation_report(context, which, finish.operation, station, NULL,
                                        tightest.figure, context->limits[LEFT]);
    report_at(finding, station, tightest.at);
}

/* --- as it lies in its nest ------------------------------------------------------------------- */

static bool want_clearance(const Corner *corner, void *data)
{
    Tightest *tightest = data;
    double wanted = corner_clearance(corner, tightest->cutter);
    if (wanted > tightest->figure) {
        tightest->figure = wanted;
        tightest->at = corner->at;
    }
    return true;
}

/* The radius of the smallest cutter of the operation that makes a recess; 0 where nobody said. */
static double nest_cutter(const Placed *placed, const Recess *recess, const Record **operation)
{
    const Record *record = recess->operation ? placed_record(placed, recess->operation) : NULL;
    Length least = 0;
    if (!record || record->kind != RECORD_OPERATION)
        return 0;
    for (uint32_t i = 0; i < record->operation.passes.count; i++) {
        Length diameter = LIST_AT(&record->operation.passes, Pass, i)->cutter_diameter;
        if (diameter > 0 && (!least || diameter < least))
            least = diameter;
    }
    *operation = record;
    return length_to_mm(least) / 2;
}

typedef struct Nest {
    RuleContext *context;
    const Feature *station;
} Nest;

/* The part of a square corner that a round one is in the way of: its tip, and where its two sides
 * come out of the round. What is cut over all three takes it. */
typedef struct Relief {
    FeatureId nest;
    double floor; /* of the nest, over the face */
    Point places[3];
    bool found;
} Relief;

static bool try_relief(const Feature *feature, void *data)
{
    Relief *relief = data;
    if (!(feature->kind & FEATURE_CUT) || feature->id == relief->nest ||
        falls_short(relief->floor, feature->bottom))
        return true;
    relief->found = true;
    for (int i = 0; i < 3; i++)
        relief->found = relief->found && shape_contains(&feature->shape, relief->places[i]);
    return !relief->found;
}

/* The i-th corner of a rectangle with no growth, counter-clockwise in its own coordinates. */
static Point rectangle_corner(const Shape *rectangle, int i)
{
    double x = (i & 3) == 1 || (i & 3) == 2 ? rectangle->half_length : -rectangle->half_length;
    double y = (i & 2) ? rectangle->half_width : -rectangle->half_width;
    return pose_point(rectangle->pose, (Point){x, y});
}

static bool corner_goes_in(const Nest *nest, const Feature *feature, const Shape *pocket, int i)
{
    const Shape *blank = &nest->station->blank;
    Point tip = rectangle_corner(blank, i);
    Relief relief = {feature->id, feature->bottom, {tip}, false};
    if (shape_contains(pocket, tip))
        return true;
    for (int k = 0; k < 2; k++) {
        Stretch in;
        Point end = rectangle_corner(blank, k ? i + 1 : i + 3);
        if (shape_section(pocket, tip, end, &in, 1) == 0)
            return false;
        double part = in.start / point_distance(tip, end);
        relief.places[k + 1] = point_plus(tip, point_times(point_minus(end, tip), part));
    }
    placed_each_near(nest->context->placed, feature->face, (Box){tip.x, tip.y, tip.x, tip.y},
                     try_relief, &relief);
    return relief.found;
}

/* The first corner of the blank that a pocket with round corners keeps out, or -1. */
static int corner_kept_out(const Nest *nest, const Feature *feature, const Shape *pocket)
{
    for (int i = 0; i < 4; i++)
        if (!corner_goes_in(nest, feature, pocket, i))
            return i;
    return -1;
}

static void report_nest(const Nest *nest, const Feature *feature, const Record *operation,
                        double needed, Point at)
{
    double clearance =
        length_to_mm(placed_record(nest->context->placed, feature->id)->recess.clearance);
    Finding *finding = operation_report(nest->context, CASE_NEST, operation, nest->station, feature,
                                        clearance, needed);
    rule_report_between(finding, at, at);
}

static void check_nest(const Nest *nest, const Feature *feature, const Recess *recess)
{
    const Record *operation = NULL, *part = placed_part(nest->context->placed, nest->station->id);
    Tightest tightest = {.cutter = nest_cutter(nest->context->placed, recess, &operation)};
    if (tightest.cutter <= 0 || !part)
        return;
    each_corner(placed_outline(nest->context->placed, part->id), 0, want_clearance, &tightest);
    if (falls_short(length_to_mm(recess->clearance), tightest.figure))
        report_nest(nest, feature, operation, tightest.figure,
                    pose_point(nest->station->shape.pose, tightest.at));
}

static void check_blank_nest(const Nest *nest, const Feature *feature, const Recess *recess)
{
    const Record *operation = NULL;
    const Shape *blank = &nest->station->blank;
    double radius = nest_cutter(nest->context->placed, recess, &operation);
    double clearance = length_to_mm(recess->clearance);
    double needed = corner_clearance(&(Corner){.turn = M_PI / 2}, radius);
    if (!nest->station->has_blank || !falls_short(clearance, needed))
        return;
    double length = 2 * (blank->half_length + clearance),
           width = 2 * (blank->half_width + clearance);
    Shape milled =
        shape_rectangle(blank->pose, length, width, fmin(radius, fmin(length, width) / 2));
    int kept_out = corner_kept_out(nest, feature, &milled);
    if (kept_out >= 0)
        report_nest(nest, feature, operation, needed, rectangle_corner(blank, kept_out));
}

/* A pocket that would take the blank if only its corners were square. */
static void check_pocket(const Nest *nest, const Feature *feature, const Recess *recess)
{
    Gap room;
    Shape square = shape_rectangle(feature->shape.pose, length_to_mm(recess->length),
                                   length_to_mm(recess->width), 0);
    if (!nest->station->has_blank || recess->corner_radius <= 0)
        return;
    shape_room(&square, &nest->station->blank, &room);
    if (falls_short(room.distance, 0))
        return;
    shape_room(&feature->shape, &nest->station->blank, &room);
    if (!falls_short(room.distance, 0) || corner_kept_out(nest, feature, &feature->shape) < 0)
        return;
    Finding *finding =
        rule_report(nest->context, CASE_POCKET, nest->station, feature, room.distance, 0);
    rule_report_between(finding, room.on_a, room.on_b);
}

static bool visit(const Feature *feature, void *data)
{
    const Nest *nest = data;
    if (feature->kind != FEATURE_RECESS)
        return true;
    const Recess *recess = &placed_record(nest->context->placed, feature->id)->recess;
    if (recess->kind == RECESS_NEST)
        check_nest(nest, feature, recess);
    else if (recess->kind == RECESS_BLANK_NEST)
        check_blank_nest(nest, feature, recess);
    else if (recess->kind == RECESS_RECTANGLE)
        check_pocket(nest, feature, recess);
    return true;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Nest nest = {context, a};
    check_rings(context, a, PASS_OUTLINE_OUTSIDE, CASE_OUTLINE);
    check_rings(context, a, PASS_OUTLINE_INSIDE, CASE_OPENING);
    placed_each_on(context->placed, a->id, visit, &nest);
}

const Rule rule_inside_corner = {
    .slug = "inside-corner",
    .title = N_("Corner tighter than the cutter"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
