#include "session/limit-preset.h"

#include "checks/rule.h"

#include <string.h>

#define MILLION 1e6

/* What the wider preset grows by half: metal that is left, and thread that holds. */
static const struct {
    const char *rule, *limit;
} wider[] = {
    {"edge-distance", "wall_aluminium"}, {"edge-distance", "wall_steel"},
    {"web", "wall_aluminium"},           {"web", "wall_steel"},
    {"floor", "floor_aluminium"},        {"floor", "floor_steel"},
    {"thread-engagement", "aluminium"},  {"thread-engagement", "steel"},
};

static const RuleLimit *find_limit(const Rule *rule, const char *name)
{
    for (int i = 0; rule && i < rule->limit_count; i++)
        if (strcmp(rule->limits[i].name, name) == 0)
            return &rule->limits[i];
    return NULL;
}

void limit_preset_add(LimitPreset preset, Settings *settings)
{
    for (size_t i = 0; preset == LIMIT_PRESET_WIDER && i < G_N_ELEMENTS(wider); i++) {
        const RuleLimit *limit = find_limit(rule_by_slug(wider[i].rule), wider[i].limit);
        if (!limit)
            continue;
        ChangedLimit *changed = list_append(&settings->limits, ChangedLimit);
        changed->rule = g_strdup(wider[i].rule);
        changed->limit = g_strdup(wider[i].limit);
        changed->value = (int64_t)(limit->starting * 1.5 * MILLION + 0.5);
    }
}
