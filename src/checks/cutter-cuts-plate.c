/* cutter-cuts-plate: a cutter that goes deeper than what is cut away for it below. */
#include "checks/passes.h"

enum { CUT, DEEP };

static const RuleLimit limits[] = {
    [CUT] = {"cut", 0, VALUE_LENGTH, N_("how deep a cutter may mark the plate"),
             N_("common practice, no source")},
    [DEEP] = {"deep", 0.5, VALUE_LENGTH, N_("how deep a cut in the plate is more than a mark"),
              N_("common practice, no source")},
};

enum { CASE_MARKS, CASE_CUTS };

static const RuleCase cases[] = {
    [CASE_MARKS] = {LEVEL_CAUTION, VALUE_LENGTH,
                    N_("at {operation} the cutter at the part of {a} marks the plate {value} deep"),
                    N_("go less deep, or mill a groove for it beforehand")},
    [CASE_CUTS] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("at {operation} the cutter at the part of {a} cuts {value} deep into the plate"),
         N_("go less deep, or cut a nest or groove that all of the cutter runs in")},
};

typedef struct Cut {
    const Placed *placed;
    const Feature *station;
    const Sweep *sweep;
    Shape area;   /* of the sweep */
    double floor; /* the lowest floor that all of the sweep runs over, over the face */
    double depth; /* the deepest cut of all */
} Cut;

static bool run_over(const Feature *feature, void *data)
{
    Cut *cut = data;
    Gap room;
    if (feature->kind != FEATURE_RECESS || feature->bottom >= cut->floor)
        return true;
    shape_room(&feature->shape, &cut->area, &room);
    if (!falls_short(room.distance, 0))
        cut->floor = feature->bottom;
    return true;
}

/* How high the metal stands under a level sweep at a station on an inclined face: as high as the
 * face under the sweep's furthest place up its slope, and as the top where it reaches over the
 * break line. What is cut out of the face does not count. */
static double highest_metal(const Cut *cut)
{
    const Frame *frame = placed_frame(cut->placed, cut->station->face);
    Box box = shape_box(&cut->area);
    const Point corners[] = {
        {box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}};
    double highest = -INFINITY;
    for (int i = 0; i < 4; i++) {
        const Space *normal = &frame->normal;
        double dx = corners[i].x - frame->origin.x, dy = corners[i].y - frame->origin.y;
        double z = frame->origin.z - (normal->x * dx + normal->y * dy) / normal->z;
        highest = fmax(highest, fmin(z, 0));
    }
    return highest;
}

static bool measure(const Sweep *sweep, void *data)
{
    Cut *cut = data;
    cut->sweep = sweep;
    cut->area = sweep_area(sweep);
    if (sweep->face == ID_NONE) {
        cut->depth = fmax(cut->depth, highest_metal(cut) - sweep->bottom);
        return true;
    }
    cut->floor = 0;
    if (sweep->bottom < 0)
        placed_each_near(cut->placed, sweep->face, shape_box(&cut->area), run_over, cut);
    cut->depth = fmax(cut->depth, cut->floor - sweep->bottom);
    return true;
}

/* What a drill runs into below the part is exit-room's business. */
static void check_operation(RuleContext *context, const Record *operation, const Feature *station,
                            void *data)
{
    const List *passes = &operation->operation.passes;
    Cut cut = {.placed = context->placed, .station = station};
    for (uint32_t i = 0; i < passes->count; i++) {
        const Pass *pass = LIST_AT(passes, Pass, i);
        if (pass->where != PASS_HOLES)
            sweeps_each(context->placed, station, pass, measure, &cut);
    }
    double allowed = context->limits[CUT], deep = fmax(allowed, context->limits[DEEP]);
    if (falls_short(deep, cut.depth))
        operation_report(context, CASE_CUTS, operation, station, NULL, cut.depth, deep);
    else if (falls_short(allowed, cut.depth))
        operation_report(context, CASE_MARKS, operation, station, NULL, cut.depth, allowed);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_operation(context, a, check_operation, NULL);
}

const Rule rule_cutter_cuts_plate = {
    .slug = "cutter-cuts-plate",
    .title = N_("Cutter cuts into the plate"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
