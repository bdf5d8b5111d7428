#include "trade/table.h"

#include <glib.h>
#include <string.h>

size_t table_count(const Table *table)
{
    return table->all ? table->all_count : table->row_count;
}

static const void *built_in(const Table *table, size_t index)
{
    return (const char *)table->rows + index * table->row_size;
}

static bool is_built_in(const Table *table, const void *row)
{
    const char *first = table->rows;
    const char *at = row;
    return at >= first && at < first + table->row_count * table->row_size;
}

const void *table_row(const Table *table, size_t index)
{
    return table->all ? table->all[index] : built_in(table, index);
}

const char *table_row_name(const void *row)
{
    return *(const char *const *)row;
}

const void *table_find(const Table *table, const char *name)
{
    const void *found = NULL;
    for (size_t i = 0; i < table_count(table); i++) {
        const void *row = table_row(table, i);
        if (strcmp(table_row_name(row), name) != 0)
            continue;
        if (!is_built_in(table, row))
            return row;
        if (!found)
            found = row;
    }
    return found;
}

static Length sort_key(const Table *table, const void *row)
{
    return *(const Length *)((const char *)row + table->sorted_by);
}

void table_add(Table *table, void *row)
{
    size_t count = table_count(table);
    const void **all = g_new(const void *, count + 1);
    size_t at = count;
    if (table->sorted_by != TABLE_UNSORTED)
        while (at > 0 && sort_key(table, table_row(table, at - 1)) > sort_key(table, row))
            at--;
    for (size_t i = 0; i < count; i++)
        all[i < at ? i : i + 1] = table_row(table, i);
    all[at] = row;
    g_free(table->all);
    table->all = all;
    table->all_count = count + 1;
}

void table_free_row(const Table *table, void *row)
{
    for (size_t c = 0; c < table->column_count; c++)
        if (table->columns[c].kind == COLUMN_TEXT)
            g_free(*(char **)(void *)((char *)row + table->columns[c].offset));
    g_free(row);
}

void table_clear(Table *table)
{
    for (size_t i = 0; table->all && i < table->all_count; i++)
        if (!is_built_in(table, table->all[i]))
            table_free_row(table, (void *)(uintptr_t)table->all[i]);
    g_free(table->all);
    table->all = NULL;
    table->all_count = 0;
}
