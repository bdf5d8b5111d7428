/* insert-room: metal round a thread insert, which pushes its hole apart more than a screw does. */
#include "checks/hardware.h"
#include "checks/recess-pair.h"

enum { WALL };

static const RuleLimit limits[] = {
    [WALL] = {"wall", 0.5, VALUE_COUNT,
              N_("wall round a thread insert, in diameters of the thread tapped for it"),
              N_("common practice, no source")},
};

enum { CASE_EDGE, CASE_RECESS };

static const RuleCase cases[] = {
    [CASE_EDGE] = {LEVEL_CAUTION, VALUE_LENGTH,
                   N_("the insert in {a} has {value} of wall to the edge; {limit} is needed"),
                   N_("move it {less} further in, or leave the insert out")},
    [CASE_RECESS] = {LEVEL_CAUTION, VALUE_LENGTH,
                     N_("the insert in {a} has {value} of wall to {b}; {limit} is needed"),
                     N_("move them {less} further apart, or leave the insert out")},
};

/* The reach must be known before a pair's inserts are: the largest of the table decides. */
static double reach(const double *values)
{
    Length largest = 0;
    for (size_t i = 0; i < insert_count(); i++)
        largest = MAX(largest, insert_at(i)->tap_major);
    return values[WALL] * length_to_mm(largest);
}

/* The wall that the largest insert of the hole needs; 0 without one. */
static double wall_needed(RuleContext *context, const Feature *feature)
{
    double largest = 0;
    if (feature->kind != FEATURE_HOLE)
        return 0;
    const List *steps = &placed_record(context->placed, feature->id)->hole.steps;
    for (uint32_t i = 0; i < steps->count; i++) {
        const Step *step = LIST_AT(steps, Step, i);
        const Insert *insert = hardware_insert(step);
        if (insert)
            largest = fmax(largest, length_to_mm(insert->tap_major));
    }
    return largest * context->limits[WALL];
}

static void check_edge(RuleContext *context, const Feature *a, double wall)
{
    Gap gap;
    const Frame *frame = placed_frame(context->placed, a->face);
    shape_room(&frame->extent, &a->shape, &gap);
    if (falls_short(gap.distance, 0) || !falls_short(gap.distance, wall))
        return;
    Finding *finding = rule_report(context, CASE_EDGE, a, NULL, gap.distance, wall);
    rule_report_between(finding, gap.on_b, gap.on_a);
}

/* Recesses that meet are overlap's business. The hole that needs the thicker wall is named first.
 */
static void check_pair(RuleContext *context, const Feature *a, const Feature *b)
{
    Gap gap;
    double wall_a = wall_needed(context, a), wall_b = wall_needed(context, b);
    const Feature *insert = wall_b > wall_a ? b : a, *other = insert == a ? b : a;
    double wall = fmax(wall_a, wall_b);
    if (wall <= 0)
        return;
    feature_gap(insert, other, &gap);
    if (falls_short(gap.distance, 0) || !falls_short(gap.distance, wall) ||
        recess_lies_within(insert, other))
        return;
    Finding *finding = rule_report(context, CASE_RECESS, insert, other, gap.distance, wall);
    rule_report_between(finding, gap.on_a, gap.on_b);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    if (b) {
        check_pair(context, a, b);
        return;
    }
    double wall = wall_needed(context, a);
    if (wall > 0)
        check_edge(context, a, wall);
}

const Rule rule_insert_room = {
    .slug = "insert-room",
    .title = N_("Thin wall round a thread insert"),
    .scope = SCOPE_FEATURE_AND_PAIR,
    .kinds = FEATURE_CUT,
    .other_kinds = FEATURE_CUT,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .reach = reach,
    .check = check,
};
