/* one-setting: the holes of a face that parts are located by are made in one operation, so that
 * their places to each other come from one setting. */
#include "checks/rule.h"
#include "placed/hole-tolerance.h"

static const RuleCase cases[] = {
    {LEVEL_CAUTION, VALUE_NONE,
     N_("{a} is held close, but made in another operation than {b} and the other close holes "
        "of its face"),
     N_("make them all in one operation, without taking the plate off between")},
};

static bool is_base_seat(const Placed *placed, const Feature *hole)
{
    const Record *base = placed_record(placed, placed_base(placed));
    if (!base || base->kind != RECORD_BASE || hole->face != ID_TOP)
        return false;
    for (uint32_t i = 0; i < base->base.seats.count; i++) {
        Place at = LIST_AT(&base->base.seats, BaseSeat, i)->at;
        if (point_distance(feature_at(hole), (Point){length_to_mm(at.x), length_to_mm(at.y)}) <
            1e-6)
            return true;
    }
    return false;
}

/* The operation that makes a close hole; the base's locators are made before the plate can lie on
 * its base, and are no part of this. */
static FeatureId close_operation(const Placed *placed, const Feature *feature)
{
    if (feature->kind != FEATURE_HOLE)
        return ID_NONE;
    const Record *record = placed_record(placed, feature->id);
    bool counts =
        record->hole.operation && hole_is_close(placed, record) && !is_base_seat(placed, feature);
    return counts ? record->hole.operation : ID_NONE;
}

#define GROUPS_MOST 64

/* The close holes of one face that are made in one operation. */
typedef struct Group {
    FeatureId face, operation, first; /* the hole with the lowest number */
    int count;
} Group;

typedef struct Groups {
    RuleContext *context;
    int count;
    Group items[GROUPS_MOST];
} Groups;

static Group *group_of(Groups *groups, FeatureId face, FeatureId operation)
{
    for (int i = 0; i < groups->count; i++)
        if (groups->items[i].face == face && groups->items[i].operation == operation)
            return &groups->items[i];
    if (groups->count == GROUPS_MOST)
        return NULL;
    Group *group = &groups->items[groups->count++];
    *group = (Group){face, operation, ID_NONE, 0};
    return group;
}

static bool add_one(const Feature *feature, void *data)
{
    Groups *groups = data;
    FeatureId operation = close_operation(groups->context->placed, feature);
    Group *group = operation ? group_of(groups, feature->face, operation) : NULL;
    if (!group)
        return true;
    group->count++;
    if (!group->first || feature->id < group->first)
        group->first = feature->id;
    return true;
}

/* The operation with the most of the face's; of equals that with the lower number. */
static const Group *main_group(const Groups *groups, FeatureId face)
{
    const Group *most = NULL;
    for (int i = 0; i < groups->count; i++) {
        const Group *group = &groups->items[i];
        bool more = !most || group->count > most->count ||
                    (group->count == most->count && group->operation < most->operation);
        if (group->face == face && more)
            most = group;
    }
    return most;
}

static bool report_other(const Feature *feature, void *data)
{
    const Groups *groups = data;
    const Placed *placed = groups->context->placed;
    FeatureId operation = close_operation(placed, feature);
    const Group *most = operation ? main_group(groups, feature->face) : NULL;
    if (!most || operation == most->operation)
        return true;
    Finding *finding =
        rule_report(groups->context, 0, feature, placed_find(placed, most->first), 0, 0);
    finding->operation = operation;
    return true;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Groups groups = {.context = context, .count = 0};
    placed_each(context->placed, add_one, &groups);
    if (groups.count > 1)
        placed_each(context->placed, report_other, &groups);
}

const Rule rule_one_setting = {
    .slug = "one-setting",
    .title = N_("Close holes made in several settings"),
    .scope = SCOPE_PLATE,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .check = check,
};
