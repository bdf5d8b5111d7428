#include "checks/finding.h"

#include "checks/rule.h"

#include <stdlib.h>

Finding *finding_list_add(FindingList *list)
{
    if (list->count == list->room) {
        list->room = list->room ? list->room * 2 : 32;
        list->items = g_renew(Finding, list->items, list->room);
    }
    Finding *finding = &list->items[list->count++];
    *finding = (Finding){.rule = NULL};
    return finding;
}

void finding_list_clear(FindingList *list)
{
    g_free(list->items);
    *list = FINDING_LIST_EMPTY;
}

static int compare_numbers(double a, double b)
{
    return (a > b) - (a < b);
}

static int compare_features(const Finding *a, const Finding *b)
{
    for (int i = 0; i < a->feature_count && i < b->feature_count; i++) {
        int order = compare_numbers(a->features[i], b->features[i]);
        if (order)
            return order;
    }
    return compare_numbers(a->feature_count, b->feature_count);
}

int finding_compare(const Finding *a, const Finding *b)
{
    int order = compare_numbers(a->accepted, b->accepted);
    if (!order)
        order = compare_numbers(a->level, b->level);
    if (!order)
        order = compare_numbers(rule_number(a->rule), rule_number(b->rule));
    if (!order)
        order = compare_numbers(a->face, b->face);
    if (!order)
        order = compare_features(a, b);
    if (!order)
        order = compare_numbers(a->operation, b->operation);
    if (!order)
        order = compare_numbers(a->which, b->which);
    if (!order)
        order = compare_numbers(a->at.x, b->at.x);
    return order ? order : compare_numbers(a->at.y, b->at.y);
}

static int compare_items(const void *a, const void *b)
{
    return finding_compare(a, b);
}

void finding_list_sort(FindingList *list)
{
    if (list->count > 1)
        qsort(list->items, list->count, sizeof(Finding), compare_items);
}

bool finding_same_key(const Finding *a, const Finding *b)
{
    return a->rule == b->rule && a->which == b->which && a->operation == b->operation &&
           compare_features(a, b) == 0;
}

FindingCounts finding_list_counts(const FindingList *list)
{
    FindingCounts counts = {{0, 0, 0}, 0};
    for (uint32_t i = 0; i < list->count; i++) {
        if (list->items[i].accepted)
            counts.accepted++;
        else
            counts.by_level[list->items[i].level]++;
    }
    return counts;
}
