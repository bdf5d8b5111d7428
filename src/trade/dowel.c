#include "trade/dowel.h"

#include "trade/table.h"

size_t dowel_count(void)
{
    return table_count(&dowel_table);
}

const Dowel *dowel_at(size_t index)
{
    return table_row(&dowel_table, index);
}

const Dowel *dowel_find(const char *name, Error *error)
{
    return table_seek(&dowel_table, "dowel pin", name, error);
}
