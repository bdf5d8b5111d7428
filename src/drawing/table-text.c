#include "drawing/table-text.h"

void table_text_start(TableText *text, const TableColumn *columns, size_t count)
{
    *text = (TableText){.column_count = MIN(count, TABLE_COLUMNS_MOST),
                        .cells = g_ptr_array_new_with_free_func(g_free)};
    for (size_t i = 0; i < text->column_count; i++)
        text->columns[i] = columns[i];
}

void table_text_end(TableText *text)
{
    g_ptr_array_unref(text->cells);
}

void table_text_add(TableText *text, const char *cell)
{
    g_ptr_array_add(text->cells, g_strdup(cell ? cell : ""));
}

void table_text_take(TableText *text, char *cell)
{
    g_ptr_array_add(text->cells, cell);
}

size_t table_text_rows(const TableText *text)
{
    return text->cells->len / text->column_count;
}

Table table_text_table(const TableText *text, double height)
{
    return (Table){.columns = text->columns,
                   .column_count = text->column_count,
                   .cells = (const char *const *)text->cells->pdata,
                   .row_count = table_text_rows(text),
                   .height = height,
                   .shown_count = text->column_count};
}
