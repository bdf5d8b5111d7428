#include "refit/refit-change.h"

static bool same_trouble(const Finding *a, const Finding *b)
{
    return a->rule == b->rule && a->which == b->which;
}

/* The first row of the same trouble that has nothing after yet. */
static RefitChange *row_for(GArray *rows, const Finding *after)
{
    for (guint i = 0; i < rows->len; i++) {
        RefitChange *row = &g_array_index(rows, RefitChange, i);
        if (row->before && !row->after && same_trouble(row->before, after))
            return row;
    }
    return NULL;
}

static const Finding *leading(const RefitChange *row)
{
    return row->after ? row->after : row->before;
}

static gint compare_rows(gconstpointer a, gconstpointer b)
{
    return finding_compare(leading(a), leading(b));
}

GArray *refit_changes(const FindingList *before, const RefitAnswer *answer)
{
    GArray *rows = g_array_new(FALSE, FALSE, sizeof(RefitChange));
    for (uint32_t i = 0; i < before->count; i++) {
        RefitChange row = {&before->items[i], NULL};
        g_array_append_val(rows, row);
    }
    for (uint32_t i = 0; i < answer->findings.count; i++) {
        const Finding *after = &answer->findings.items[i];
        RefitChange *row = row_for(rows, after), alone = {NULL, after};
        if (row)
            row->after = after;
        else
            g_array_append_val(rows, alone);
    }
    g_array_sort(rows, compare_rows);
    return rows;
}
