/* How far a part has to be turned at the least until a stop can have gone. */
#include "refit/turning.h"

#define DEGREES (180 / M_PI)

/* The part's own hardware in the way of a cutter that follows the part: both turn together. Which
 * side a bevel is cut from may change. */
static bool is_in_own_way(const Refit *refit, const Finding *finding)
{
    const Record *operation = placed_record(refit->placed, finding->operation);
    for (int i = 0; i < finding->feature_count; i++)
        if (finding->features[i] < refit->first_new &&
            !refit_is_replaced(refit, finding->features[i]))
            return false;
    return finding->rule == &rule_cutter_meets_hardware && operation &&
           !operation_has_pass(&operation->operation, PASS_BEVEL);
}

/* What is found at every rotation if it is at one. */
static bool is_same_everywhere(const Refit *refit, const Finding *finding)
{
    const Rule *rule = finding->rule;
    return rule == &rule_two_locators || rule == &rule_comes_loose || rule == &rule_locator_fit ||
           is_in_own_way(refit, finding);
}

static const Feature *own_hole(const Refit *refit, FeatureId id)
{
    const Feature *feature = id >= refit->first_new ? placed_find(refit->overlay, id) : NULL;
    return feature && feature->kind == FEATURE_HOLE ? feature : NULL;
}

/* How far the new hole has to go at the least until it is clear of what stays where it is, mm. Of
 * two that overlap the gap may be only a sign of it, but it never says more than is needed. A
 * recess that the hole lies wholly in is no trouble either, so it can also be left inwards. */
static double way_out_of(const Finding *finding, const Feature *hole, const Feature *other)
{
    double way = finding->limit - finding->value;
    if (!other || (other->kind != FEATURE_HOLE && other->kind != FEATURE_RECESS &&
                   other->kind != FEATURE_KEEP_CLEAR))
        return 0;
    if (other->kind != FEATURE_RECESS)
        return way;
    return finding->value < 0 ? 0 : fmin(way, finding->value + hole->shape.growth);
}

static double way_out(const Refit *refit, const Finding *finding, const Feature **hole)
{
    FeatureId one = finding->features[0],
              two = finding->feature_count > 1 ? finding->features[1] : 0;
    bool edge = finding->rule == &rule_edge_distance || finding->rule == &rule_outside_plate;
    bool pair = finding->rule == &rule_web || finding->rule == &rule_overlap ||
                finding->rule == &rule_keep_clear;
    *hole = own_hole(refit, one);
    if (edge && *hole)
        return finding->limit - finding->value;
    if (!pair || finding->feature_count != 2)
        return 0;
    if (*hole)
        return two < refit->first_new ? way_out_of(finding, *hole, placed_find(refit->placed, two))
                                      : 0;
    *hole = own_hole(refit, two);
    return *hole ? way_out_of(finding, *hole, placed_find(refit->placed, one)) : 0;
}

double turning_fails(const Turning *turning, const RefitAnswer *answer)
{
    double degrees = 0;
    for (uint32_t i = 0; i < answer->findings.count; i++) {
        const Finding *finding = &answer->findings.items[i];
        const Feature *hole;
        if (finding->level != LEVEL_STOP || finding->accepted)
            continue;
        if (is_same_everywhere(turning->refit, finding))
            return 360;
        double way = way_out(turning->refit, finding, &hole);
        double radius = way > 0 ? point_distance(feature_at(hole), turning->hole->at) : 0;
        if (radius > 0)
            degrees = fmax(degrees, fmin(360, way / radius * DEGREES));
    }
    return degrees;
}
