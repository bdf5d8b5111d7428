#include "trade/clamp.h"

#include "trade/table.h"

size_t clamp_count(void)
{
    return table_count(&clamp_table);
}

const Clamp *clamp_at(size_t index)
{
    return table_row(&clamp_table, index);
}

const Clamp *clamp_find(const char *name, Error *error)
{
    return table_seek(&clamp_table, "edge clamp", name, error);
}
