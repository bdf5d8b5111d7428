#include "checks/rule-limits.h"

#include <string.h>

static void change(Limits *limits, const ChangedLimit *changed)
{
    const Rule *rule = changed->rule ? rule_by_slug(changed->rule) : NULL;
    for (int i = 0; rule && changed->limit && i < rule->limit_count; i++)
        if (strcmp(rule->limits[i].name, changed->limit) == 0)
            limits->values[rule_number(rule)][i] = (double)changed->value / 1e6;
}

void limits_read(Limits *limits, const Settings *settings)
{
    g_assert(rule_count() <= RULES_MOST);
    for (int r = 0; r < rule_count(); r++)
        for (int i = 0; i < rule_at(r)->limit_count; i++)
            limits->values[r][i] = rule_at(r)->limits[i].starting;
    for (uint32_t i = 0; i < settings->limits.count; i++)
        change(limits, LIST_AT(&settings->limits, ChangedLimit, i));
}
