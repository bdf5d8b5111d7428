#include "trade/material.h"

#include "trade/table.h"

size_t material_count(void)
{
    return table_count(&material_table);
}

const Material *material_at(size_t index)
{
    return table_row(&material_table, index);
}

const Material *material_find(const char *name, Error *error)
{
    return table_seek(&material_table, "material", name, error);
}
