#include "drawing/hole-kinds.h"

#include <stdlib.h>
#include <string.h>

#define MARKS_MOST 34.0

/* Where a label's figures begin; at its end where it has none. */
static size_t figures_at(const char *label)
{
    return strcspn(label, "0123456789");
}

/* Whether `next` is the label that follows `label`, one figure on. */
static bool follows(const char *label, const char *next)
{
    size_t at = figures_at(label);
    char *end, *next_end;
    if (!label[at] || figures_at(next) != at || strncmp(label, next, at) != 0)
        return false;
    unsigned long number = strtoul(label + at, &end, 10), other = strtoul(next + at, &next_end, 10);
    return !*end && !*next_end && other == number + 1;
}

char *hole_kinds_marks(const HoleTable *table, const size_t *rows, size_t count)
{
    GString *text = g_string_new(NULL);
    for (size_t i = 0; i < count;) {
        size_t last = i;
        while (last + 1 < count &&
               follows(table->rows[rows[last]].label, table->rows[rows[last + 1]].label))
            last++;
        g_string_append_printf(text, "%s%s", text->len ? ", " : "", table->rows[rows[i]].label);
        if (last > i)
            g_string_append_printf(text, "%s%s", last > i + 1 ? "-" : ", ",
                                   table->rows[rows[last]].label);
        i = last + 1;
    }
    return g_string_free(text, FALSE);
}

static bool is_same_kind(const HoleRow *a, const HoleRow *b)
{
    return strcmp(a->description, b->description) == 0 && strcmp(a->frame, b->frame) == 0;
}

size_t hole_kinds_take(const HoleTable *table, size_t first, bool *taken, size_t *rows)
{
    size_t count = 0;
    for (size_t i = first; i < table->count && !taken[first]; i++) {
        const HoleRow *row = &table->rows[i];
        if (row->kind == FEATURE_HOLE && !taken[i] && is_same_kind(&table->rows[first], row))
            rows[count++] = i;
    }
    for (size_t i = 0; i < count; i++)
        taken[rows[i]] = true;
    return count;
}

static void add_kind(TableText *text, const HoleTable *table, const size_t *rows, size_t count)
{
    const HoleRow *first = &table->rows[rows[0]];
    table_text_take(text, hole_kinds_marks(table, rows, count));
    table_text_take(text, g_strdup_printf("%zu", count));
    table_text_take(
        text, g_strdup_printf("%s%s%s", first->plain, *first->limits ? "\n" : "", first->limits));
    table_text_add(text, first->frame);
    table_text_add(text, first->tools);
}

void hole_kinds_draw(Flow *flow, const HoleTable *table)
{
    static const TableColumn columns[] = {{"Marks", TEXT_START, 0, MARKS_MOST, false},
                                          {"Count", TEXT_END, 0, 0, false},
                                          {"Kind of hole", TEXT_START, 0, 0, false},
                                          {"Position", TEXT_START, 0, 0, true},
                                          {"Tools", TEXT_START, 0, 16, false}};
    TableText text;
    size_t *rows = g_new(size_t, table->count);
    bool *taken = g_new0(bool, table->count);
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (size_t i = 0; i < table->count; i++) {
        size_t count = hole_kinds_take(table, i, taken, rows);
        if (count > 0)
            add_kind(&text, table, rows, count);
    }
    if (table_text_rows(&text) > 0)
        flow_heading(flow, "Holes by kind");
    flow_table(flow, &text, 2, false);
    table_text_end(&text);
    g_free(taken);
    g_free(rows);
}
