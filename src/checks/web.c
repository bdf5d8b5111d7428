/* web: metal between two recesses of one face that share a depth. */
#include "checks/pressed-pin.h"
#include "checks/recess-pair.h"

enum { WALL_ALUMINIUM, WALL_STEEL, WALL_PRESSED };

static const RuleLimit limits[] = {
    [WALL_ALUMINIUM] = {"wall_aluminium", 2.0, VALUE_LENGTH,
                        N_("least wall between two recesses in aluminium"),
                        N_("common practice, no source")},
    [WALL_STEEL] = {"wall_steel", 1.5, VALUE_LENGTH, N_("least wall between two recesses in steel"),
                    N_("common practice, no source")},
    [WALL_PRESSED] = {"wall_pressed", 1.0, VALUE_COUNT,
                      N_("diameters of metal round a pressed-in pin"),
                      N_("common practice, no source")},
};

enum { CASE_WALL, CASE_PRESSED };

static const RuleCase cases[] = {
    [CASE_WALL] = {LEVEL_STOP, VALUE_LENGTH,
                   N_("{a} and {b} leave a wall of {value} between them; at least {limit} is "
                      "needed"),
                   N_("move them {less} further apart")},
    [CASE_PRESSED] = {LEVEL_STOP, VALUE_LENGTH,
                      N_("{a} is pressed in with {value} of metal to {b}; it needs {limit}, or "
                         "it pushes the wall over"),
                      N_("move them {less} further apart, or make the pin a slip fit there")},
};

/* The largest of the walls: the metal isn't known here, and a pair too far apart costs little. */
static Reach reach(const Placed *placed, const double *values)
{
    double walls = fmax(values[WALL_ALUMINIUM], values[WALL_STEEL]);
    return (Reach){fmax(walls, values[WALL_PRESSED] * pressed_pin_largest(placed)), -1};
}

static const Feature *movable(RuleContext *context, const Feature *a, const Feature *b)
{
    const Record *record = placed_record(context->placed, b->id);
    return record && !record_made(record) && !record_locked(record) && !record_station(record) ? b
                                                                                               : a;
}

static bool share_a_depth(const Feature *a, const Feature *b)
{
    return falls_short(fmax(a->bottom, b->bottom), fmin(a->top, b->top));
}

/* What the pin stands in is no wall to it, nor a nest that it stands in the floor of. */
static void check_pressed(RuleContext *context, const Feature *a, const Feature *b)
{
    Gap gap;
    PressedPin pin;
    if (!pressed_pin(context->placed, a, &pin) || pin.hole == b || !share_a_depth(pin.hole, b) ||
        recess_lies_within(pin.hole, b))
        return;
    double wall = context->limits[WALL_PRESSED] * pin.diameter;
    shape_gap(&pin.bore, &b->shape, &gap);
    if (falls_short(gap.distance, 0) || !falls_short(gap.distance, wall))
        return;
    Finding *finding = rule_report(context, CASE_PRESSED, a, b, gap.distance, wall);
    rule_report_between(finding, gap.on_a, gap.on_b);
}

/* Recesses that meet are overlap's business. */
static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Gap gap;
    if (a->kind == FEATURE_FITTING) {
        check_pressed(context, a, b);
        return;
    }
    double wall = rule_limit_by_metal(context, WALL_ALUMINIUM, WALL_STEEL);
    feature_gap(a, b, &gap);
    if (falls_short(gap.distance, 0) || !falls_short(gap.distance, wall) ||
        recess_lies_within(a, b))
        return;
    Finding *finding = rule_report(context, CASE_WALL, a, b, gap.distance, wall);
    rule_report_between(finding, gap.on_a, gap.on_b);
    Point way = point_minus(gap.on_b, gap.on_a);
    const Feature *mover = movable(context, a, b);
    double length = point_length(way), sign = mover == b ? 1 : -1;
    if (length > 0)
        rule_offer_move(context, finding, mover,
                        point_times(way, sign * (wall - gap.distance) / length));
}

const Rule rule_web = {
    .slug = "web",
    .title = N_("Thin wall between two recesses"),
    .scope = SCOPE_PAIR,
    .kinds = FEATURE_CUT | FEATURE_FITTING,
    .other_kinds = FEATURE_CUT,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .reach_anywhere = reach,
    .check = check,
};
