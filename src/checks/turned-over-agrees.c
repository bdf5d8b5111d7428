/* turned-over-agrees: the stations for a blade's two sides are mirror images, with the same
 * locators at the same places of the part, so that both bevels meet at one edge. */
#include "checks/locators.h"
#include "checks/rule.h"

enum { OFF };

static const RuleLimit limits[] = {
    [OFF] = {"off", 0.002, VALUE_LENGTH,
             N_("how far the two sides' stations may differ from mirror images"),
             N_("common practice, no source")},
};

enum { CASE_SAME_SIDE, CASE_PART, CASE_LINE, CASE_LOCATOR, CASE_SEAT };

static const RuleCase cases[] = {
    [CASE_SAME_SIDE] = {LEVEL_STOP, VALUE_NONE,
                        N_("{a} is the mirror image of {b}, but holds the part the same side up"),
                        N_("turn one of them over")},
    [CASE_PART] =
        {LEVEL_STOP, VALUE_NONE,
         N_("{a} is the mirror image of {b}, but holds another part or lies on another face"),
         N_("give both the same part on the same face")},
    [CASE_LINE] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("{a} lies {value} along the slope from where the mirror image of {b} is; "
            "{limit} is the most"),
         N_("line both up with the break line, or make the second one anew from the first")},
    [CASE_LOCATOR] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("a locator of {a} stands {value} from where the one of {b} does in the part; "
            "{limit} is the most"),
         N_("put the locators of both stations through the same places of the part")},
    [CASE_SEAT] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("the part lies {value} higher or lower on {a} than on {b}; {limit} is the most"),
         N_("give both nests the same depth")},
};

typedef struct Pair {
    RuleContext *context;
    const Feature *one, *other; /* the image, and what it is the image of */
} Pair;

static void report(const Pair *pair, int which, double value)
{
    rule_report(pair->context, which, pair->one, pair->other, value, pair->context->limits[OFF]);
}

/* Mirrored about a line square to the break line, every place of the part keeps its Y: the middle
 * of the outline's box and a place beside it, which a turn would shift. */
static double off_along_slope(const Pair *pair)
{
    double off = 0;
    Box box = outline_box(pair->one->shape.outline);
    const Point places[] = {{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}};
    for (int i = 0; i < 4; i++) {
        Point a = pose_point(pair->one->shape.pose, places[i]);
        Point b = pose_point(pair->other->shape.pose, places[i]);
        off = fmax(off, fabs(a.y - b.y));
    }
    return off;
}

/* How far the first locator, from the part's coordinates, is from the nearest of the others. */
static double off_of_locator(const Pair *pair, const Locator *locator, const Locator *others,
                             int count)
{
    double nearest = INFINITY;
    Point at = pose_point(pose_inverse(pair->one->shape.pose), locator->at);
    for (int i = 0; i < count; i++) {
        Point other = pose_point(pose_inverse(pair->other->shape.pose), others[i].at);
        nearest = fmin(nearest, point_distance(at, other));
    }
    return nearest;
}

static double off_of_locators(const Pair *pair)
{
    Locator own[LOCATORS_MOST], others[LOCATORS_MOST];
    double off = 0;
    int count = station_locators(pair->context->placed, pair->one, own);
    int other_count = station_locators(pair->context->placed, pair->other, others);
    for (int i = 0; i < count && other_count > 0; i++)
        off = fmax(off, off_of_locator(pair, &own[i], others, other_count));
    return off;
}

static void check_pair(const Pair *pair, const Station *one, const Station *other)
{
    double limit = pair->context->limits[OFF];
    if (one->part != other->part || one->face != other->face) {
        report(pair, CASE_PART, 0);
        return;
    }
    if (one->turned_over == other->turned_over) {
        report(pair, CASE_SAME_SIDE, 0);
        return;
    }
    double slope = one->face == ID_TOP ? 0 : off_along_slope(pair);
    double locators = off_of_locators(pair);
    double seats = fabs(pair->one->bottom - pair->other->bottom);
    if (falls_short(limit, slope))
        report(pair, CASE_LINE, slope);
    else if (falls_short(limit, locators))
        report(pair, CASE_LOCATOR, locators);
    else if (falls_short(limit, seats))
        report(pair, CASE_SEAT, seats);
}

static bool check_station(const Record *record, void *data)
{
    RuleContext *context = data;
    const Placed *placed = context->placed;
    const Record *other =
        record->station.mirror_of ? placed_record(placed, record->station.mirror_of) : NULL;
    Pair pair = {context, placed_find(placed, record->id),
                 other ? placed_find(placed, other->id) : NULL};
    if (other && other->kind == RECORD_STATION && pair.one && pair.other)
        check_pair(&pair, &record->station, &other->station);
    return true;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    placed_each_record(context->placed, RECORD_STATION, check_station, context);
}

const Rule rule_turned_over_agrees = {
    .slug = "turned-over-agrees",
    .title = N_("Stations of the two sides differ"),
    .scope = SCOPE_PLATE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
