#include "trade/screw.h"

#include "trade/table.h"

#include <glib.h>

size_t screw_count(void)
{
    return table_count(&screw_table);
}

const Screw *screw_at(size_t index)
{
    return table_row(&screw_table, index);
}

const Screw *screw_find(const char *name, Error *error)
{
    return table_seek(&screw_table, "screw", name, error);
}

const Screw *screw_of(ScrewKind kind, const char *size, Error *error)
{
    static const char *const kinds[] = {"socket head", "flat head", "button head"};
    char name[64];
    g_snprintf(name, sizeof name, "%s %s", kinds[kind], size);
    return screw_find(name, error);
}
