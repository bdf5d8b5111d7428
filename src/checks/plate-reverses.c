/* plate-reverses: the plate must not go on its base turned half round. */
#include "checks/rule.h"

enum { APART };

static const RuleLimit limits[] = {
    [APART] = {"apart", 0.5, VALUE_LENGTH,
               N_("how far two seats must be from changing places, or their diameters apart"),
               N_("common practice, no source")},
};

static const RuleCase cases[] = {
    {LEVEL_CAUTION, VALUE_NONE, N_("the plate also seats on its base turned half round"),
     N_("move one locator off the middle, or give the two different diameters")},
};

static bool locates(const BaseSeat *seat)
{
    return seat->kind == BASE_ROUND_PIN || seat->kind == BASE_RELIEVED_PIN ||
           seat->kind == BASE_BUSH;
}

static Point seat_at(const BaseSeat *seat)
{
    return (Point){length_to_mm(seat->at.x), length_to_mm(seat->at.y)};
}

/* Pins want a hole as large as their own; what pulls down or pries only wants to be met by its
 * like. */
static bool changes_places(const BaseSeat *seat, const BaseSeat *other, Point turned, double apart)
{
    bool same_sort =
        locates(seat) == locates(other) && (locates(seat) || seat->kind == other->kind);
    return same_sort && point_distance(turned, seat_at(other)) <= apart &&
           fabs(length_to_mm(seat->diameter - other->diameter)) <= apart;
}

/* Turned half round about the middle of its two locators, does every seat meet one like it? */
static bool reverses(const Base *base, Point middle, double apart)
{
    for (uint32_t i = 0; i < base->seats.count; i++) {
        const BaseSeat *seat = LIST_AT(&base->seats, BaseSeat, i);
        Point turned = point_minus(point_times(middle, 2), seat_at(seat));
        bool met = seat->kind == BASE_PRY_SLOT;
        for (uint32_t k = 0; !met && k < base->seats.count; k++)
            met = changes_places(seat, LIST_AT(&base->seats, BaseSeat, k), turned, apart);
        if (!met)
            return false;
    }
    return true;
}

static bool find_middle(const Base *base, Point *middle)
{
    Point sum = {0, 0};
    int count = 0;
    for (uint32_t i = 0; i < base->seats.count; i++) {
        const BaseSeat *seat = LIST_AT(&base->seats, BaseSeat, i);
        if (locates(seat)) {
            sum = point_plus(sum, seat_at(seat));
            count++;
        }
    }
    *middle = point_times(sum, count ? 1.0 / count : 0);
    return count > 0;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Record *record = placed_record(context->placed, placed_base(context->placed));
    Point middle;
    if (!record || !find_middle(&record->base, &middle) ||
        !reverses(&record->base, middle, context->limits[APART]))
        return;
    Finding *finding = rule_report(context, 0, NULL, NULL, 0, 0);
    finding->face = ID_TOP;
    finding->features[finding->feature_count++] = record->id;
    finding->at = finding->from = finding->to = middle;
}

const Rule rule_plate_reverses = {
    .slug = "plate-reverses",
    .title = N_("Plate goes on its base the wrong way round"),
    .scope = SCOPE_PLATE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
