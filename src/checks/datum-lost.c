/* datum-lost: the place that all is measured from must be there to be picked up. */
#include "checks/rule.h"

enum { CASE_CUT, CASE_COVERED };

static const RuleCase cases[] = {
    [CASE_CUT] = {LEVEL_STOP, VALUE_NONE, N_("{a} cuts the datum away"),
                  N_("move it, or choose another datum")},
    [CASE_COVERED] = {LEVEL_CAUTION, VALUE_NONE, N_("{a} stands on the datum and covers it"),
                      N_("move it, or pick the datum up before it is fitted")},
};

typedef struct Look {
    RuleContext *context;
    Point datum;
    FeatureId hole; /* that is the datum itself */
} Look;

static bool look(const Feature *feature, void *data)
{
    const Look *at = data;
    bool cut = feature->kind & FEATURE_CUT;
    if (feature->id == at->hole || !shape_contains(&feature->shape, at->datum))
        return true;
    /* A keep-clear is only a place to stay out of; a nest round a datum hole leaves the hole. */
    if (feature->kind == FEATURE_KEEP_CLEAR ||
        (at->hole && feature->kind == FEATURE_RECESS && !feature->through))
        return true;
    Finding *finding = rule_report(at->context, cut ? CASE_CUT : CASE_COVERED, feature, NULL, 0, 0);
    finding->at = finding->from = finding->to = at->datum;
    return true;
}

static Point datum_of(const Placed *placed, FeatureId *hole)
{
    const Settings *settings = placed_settings(placed);
    const Stock *stock = &settings->stock;
    int corner = settings->datum.corner;
    const Feature *feature = placed_find(placed, settings->datum.hole);
    *hole = ID_NONE;
    if (settings->datum.kind == DATUM_POINT)
        return (Point){length_to_mm(settings->datum.at.x), length_to_mm(settings->datum.at.y)};
    if (settings->datum.kind == DATUM_HOLE && feature) {
        *hole = feature->id;
        return feature_at(feature);
    }
    bool right = corner == CORNER_FRONT_RIGHT || corner == CORNER_BACK_RIGHT;
    bool back = corner == CORNER_BACK_LEFT || corner == CORNER_BACK_RIGHT;
    return (Point){right ? length_to_mm(stock->length) : 0, back ? length_to_mm(stock->width) : 0};
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Look at = {context, {0, 0}, ID_NONE};
    at.datum = datum_of(context->placed, &at.hole);
    Box box = {at.datum.x, at.datum.y, at.datum.x, at.datum.y};
    placed_each_near(context->placed, ID_TOP, box, look, &at);
}

const Rule rule_datum_lost = {
    .slug = "datum-lost",
    .title = N_("Datum cut away or covered"),
    .scope = SCOPE_PLATE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .check = check,
};
