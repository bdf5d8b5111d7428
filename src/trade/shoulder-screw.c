#include "trade/shoulder-screw.h"

#include "trade/table.h"

size_t shoulder_screw_count(void)
{
    return table_count(&shoulder_screw_table);
}

const ShoulderScrew *shoulder_screw_at(size_t index)
{
    return table_row(&shoulder_screw_table, index);
}

const ShoulderScrew *shoulder_screw_find(const char *name, Error *error)
{
    return table_seek(&shoulder_screw_table, "shoulder screw", name, error);
}
