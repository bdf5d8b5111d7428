/* cross-drilled: recesses of different faces that meet inside the plate, or leave little between.
 */
#include "checks/rule.h"
#include "placed/placed-solids.h"

enum { WALL_ALUMINIUM, WALL_STEEL };

static const RuleLimit limits[] = {
    [WALL_ALUMINIUM] = {"wall_aluminium", 2.0, VALUE_LENGTH,
                        N_("least wall between recesses of different faces in aluminium"),
                        N_("common practice, no source")},
    [WALL_STEEL] = {"wall_steel", 1.5, VALUE_LENGTH,
                    N_("least wall between recesses of different faces in steel"),
                    N_("common practice, no source")},
};

enum { CASE_HOLE, CASE_RECESSES, CASE_WALL };

static const RuleCase cases[] = {
    [CASE_HOLE] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("{a} and {b}, from different faces, break into each other inside the plate by "
            "{over}"),
         N_("move one of them, or make it shallower")},
    [CASE_RECESSES] = {LEVEL_NOTE, VALUE_LENGTH,
                       N_("{a} and {b}, from different faces, run into each other by {over}"),
                       N_("fine where it is meant, as a slot that runs out over an inclined face")},
    [CASE_WALL] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("{a} and {b}, from different faces, leave a wall of {value} between them inside "
            "the plate; at least {limit} is needed"),
         N_("move them {less} further apart, or make one of them shallower")},
};

/* The larger of the two walls: the metal isn't known here. */
static double reach(const double *values)
{
    return fmax(values[WALL_ALUMINIUM], values[WALL_STEEL]);
}

/* The place is said on the first one's face, square above or below where it is in the plate. */
static Point on_face(const RuleContext *context, const Feature *feature, Space p)
{
    return frame_from_space(placed_frame(context->placed, feature->face), p, NULL);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    SolidGap gap;
    double wall = rule_limit_by_metal(context, WALL_ALUMINIUM, WALL_STEEL);
    if (!placed_solids_gap(context->placed, a, b, wall, &gap) || !falls_short(gap.distance, wall))
        return;
    bool meet = falls_short(gap.distance, 0);
    bool hole = a->kind == FEATURE_HOLE || b->kind == FEATURE_HOLE;
    int which = !meet ? CASE_WALL : hole ? CASE_HOLE : CASE_RECESSES;
    Finding *finding = rule_report(context, which, a, b, gap.distance, meet ? 0 : wall);
    rule_report_between(finding, on_face(context, a, gap.on_a), on_face(context, a, gap.on_b));
}

const Rule rule_cross_drilled = {
    .slug = "cross-drilled",
    .title = N_("Recesses of different faces that meet inside"),
    .scope = SCOPE_PAIR,
    .kinds = FEATURE_CUT,
    .other_kinds = FEATURE_CUT,
    .across_faces = true,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .reach = reach,
    .check = check,
};
