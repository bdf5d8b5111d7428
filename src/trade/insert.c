#include "trade/insert.h"

#include "trade/table.h"

size_t insert_count(void)
{
    return table_count(&insert_table);
}

const Insert *insert_at(size_t index)
{
    return table_row(&insert_table, index);
}

const Insert *insert_find(const char *name, Error *error)
{
    return table_seek(&insert_table, "thread insert", name, error);
}
