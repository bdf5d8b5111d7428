#include "trade/clearance.h"

#include "trade/table.h"

size_t clearance_count(void)
{
    return table_count(&clearance_table);
}

const Clearance *clearance_at(size_t index)
{
    return table_row(&clearance_table, index);
}

const Clearance *clearance_find(const char *name, Error *error)
{
    return table_seek(&clearance_table, "clearance hole", name, error);
}
