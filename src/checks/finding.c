#include "checks/finding.h"

#include "checks/rule.h"

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

static void sift_down(Finding *items, uint32_t at, uint32_t count)
{
    Finding sifted = items[at];
    for (uint32_t child = 2 * at + 1; child < count; child = 2 * at + 1) {
        if (child + 1 < count && finding_compare(&items[child], &items[child + 1]) < 0)
            child++;
        if (finding_compare(&sifted, &items[child]) >= 0)
            break;
        items[at] = items[child];
        at = child;
    }
    items[at] = sifted;
}

/* A heap sorts in place: the library's sort allocates, and this is done while a thing is dragged.
 */
void finding_list_sort(FindingList *list)
{
    for (uint32_t i = list->count / 2; i-- > 0;)
        sift_down(list->items, i, list->count);
    for (uint32_t end = list->count; end-- > 1;) {
        Finding last = list->items[end];
        list->items[end] = list->items[0];
        list->items[0] = last;
        sift_down(list->items, 0, end);
    }
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
