#include "checks/rule.h"

#include <string.h>

/* The table. Its order is the order of the groups in the guide and of findings of one level. */
static const Rule *const rules[] = {
    /* material left */
    &rule_outside_plate,
    &rule_edge_distance,
    &rule_web,
    &rule_overlap,
    &rule_floor,
    &rule_breaks_through,
    &rule_cross_drilled,
    &rule_insert_room,
    &rule_wall_to_face,
    &rule_datum_lost,
    /* room */
    &rule_keep_clear,
    &rule_parts_overlap,
    &rule_part_overhang,
    &rule_cutter_meets_hardware,
    &rule_cutter_meets_neighbour,
    &rule_cutter_cuts_plate,
    &rule_holder_meets_clamp,
    &rule_access,
    &rule_exit_room,
    &rule_reach,
    &rule_travel,
    /* locating */
    &rule_two_locators,
    &rule_locator_fit,
    &rule_locator_pitch,
    &rule_shoulder_length,
    &rule_shoulder_bearing,
    &rule_shoulder_seat,
    &rule_shoulder_guided,
    &rule_spoils_locator,
    &rule_loads_wrong,
    &rule_plate_reverses,
    &rule_turned_over_agrees,
    &rule_reference_hole,
    /* holding */
    &rule_comes_loose,
    &rule_offcut_loose,
    &rule_nest_burr,
    &rule_lift_out,
    &rule_clamp_travel,
    &rule_clamp_height,
    &rule_clamp_backing,
    &rule_clamp_bows,
    &rule_unsupported,
    /* making */
    &rule_thread_engagement,
    &rule_tap_depth,
    &rule_tap_drill,
    &rule_drill_ratio,
    &rule_ream_stock,
    &rule_ream_floor,
    &rule_pin_removal,
    &rule_drill_entry,
    &rule_one_setting,
    &rule_chip_trap,
    &rule_inside_corner,
    /* bevel */
    &rule_bevel_runs_out,
    &rule_edge_thins,
};

int rule_count(void)
{
    return (int)G_N_ELEMENTS(rules);
}

const Rule *rule_at(int i)
{
    return rules[i];
}

const Rule *rule_by_slug(const char *slug)
{
    for (int i = 0; i < rule_count(); i++)
        if (strcmp(rules[i]->slug, slug) == 0)
            return rules[i];
    return NULL;
}

int rule_number(const Rule *rule)
{
    for (int i = 0; i < rule_count(); i++)
        if (rules[i] == rule)
            return i;
    return -1;
}

Finding *rule_report(RuleContext *context, int which, const Feature *a, const Feature *b,
                     double value, double limit)
{
    Finding *finding = finding_list_add(context->findings);
    finding->rule = context->rule;
    finding->which = which;
    finding->level = context->rule->cases[which].level;
    finding->value = value;
    finding->limit = limit;
    if (a) {
        finding->face = a->face;
        finding->features[finding->feature_count++] = a->id;
        finding->at = finding->from = finding->to = feature_at(a);
    }
    if (b)
        finding->features[finding->feature_count++] = b->id;
    return finding;
}

void rule_report_between(Finding *finding, Point from, Point to)
{
    finding->from = from;
    finding->to = to;
    finding->at = point_times(point_plus(from, to), 0.5);
}

void rule_offer_move(RuleContext *context, Finding *finding, const Feature *feature, Point by)
{
    const Record *record = placed_record(context->placed, feature->id);
    bool may_move = record && !record_made(record) && !record_locked(record);
    if (may_move && record_place_const(record) && !record_station(record))
        finding->remedy = (Remedy){feature->id, by};
}

double rule_limit_by_metal(const RuleContext *context, int aluminium, int steel)
{
    int metal = placed_settings(context->placed)->stock.metal;
    return context->limits[metal == METAL_STEEL ? steel : aluminium];
}
