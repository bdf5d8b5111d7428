/* Finding a row by a name that a person typed, and naming its neighbours when it is not there. */
#include "trade/table.h"
#include "trade/typed.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#define NEIGHBOURS 3

/* Small letters alone, without blanks and inch signs, cut off at `size`. */
static void folded(const char *name, char *text, size_t size)
{
    size_t count = 0;
    for (; *name && count + 1 < size; name++)
        if (*name != ' ' && *name != '"' && *name != '#')
            text[count++] = g_ascii_tolower(*name);
    text[count] = '\0';
    if (count > 2 && !strcmp(text + count - 2, "in") && g_ascii_isdigit(text[count - 3]))
        text[count - 2] = '\0';
}

static const void *find_loosely(const Table *table, const char *name)
{
    char wanted[64], row_name[64];
    folded(name, wanted, sizeof wanted);
    for (size_t i = 0; i < table_count(table); i++) {
        const void *row = table_row(table, i);
        folded(table_row_name(row), row_name, sizeof row_name);
        if (!strcmp(wanted, row_name))
            return row;
    }
    return NULL;
}

/* Reads a size out of a name: what stands before a hyphen or an x ("1/4-24", "M7x1"); a number of a
 * screw counts as 0.060 in + 0.013 in for each (ASME B1.1). */
static bool size_in_name(const char *name, Length *size)
{
    char before = '\0';
    for (; *name && !g_ascii_isdigit(*name) && *name != '#'; name++)
        before = *name;
    bool metric = g_ascii_toupper(before) == 'M' || strstr(name, "mm");
    size_t count = strspn(name + (*name == '#'), "0123456789./ ") + (*name == '#');
    char text[32];
    if (!count || count >= sizeof text)
        return false;
    g_strlcpy(text, name, count + 1);
    g_strstrip(text);
    int number;
    if (typed_count_read(text + (text[0] == '#'), 0, 14, &number, NULL) && !metric &&
        (text[0] == '#' || name[count] == '-')) {
        *size = (60 + 13 * number) * (LENGTH_INCH / 1000);
        return true;
    }
    return typed_length_read(text, metric ? UNIT_MM : UNIT_INCH, size, NULL, 0, NULL);
}

static const Length *row_size(const Table *table, const void *row)
{
    for (size_t c = 0; c < table->column_count; c++)
        if (table->columns[c].kind == COLUMN_LENGTH)
            return (const Length *)((const char *)row + table->columns[c].offset);
    return NULL;
}

/* How many letters must be put in, left out or changed to make one text of the other. */
static unsigned spelling_distance(const char *a, const char *b)
{
    unsigned line[64];
    size_t width = MIN(strlen(b), G_N_ELEMENTS(line) - 1);
    for (unsigned j = 0; j <= width; j++)
        line[j] = j;
    for (unsigned i = 0; i < G_N_ELEMENTS(line) && a[i]; i++) {
        unsigned corner = line[0];
        line[0] = i + 1;
        for (size_t j = 0; j < width; j++) {
            unsigned changed = corner + (a[i] != b[j]);
            corner = line[j + 1];
            line[j + 1] = MIN(changed, MIN(corner, line[j]) + 1);
        }
    }
    return line[width];
}

static guint64 strangeness(const Table *table, const void *row, const char *wanted, bool sized,
                           Length size)
{
    char row_name[64];
    folded(table_row_name(row), row_name, sizeof row_name);
    unsigned spelling = spelling_distance(wanted, row_name);
    if (!sized)
        return spelling;
    return (guint64)llabs(*row_size(table, row) - size) * 64 + MIN(spelling, 63u);
}

static void name_neighbours(const Table *table, const char *name, char *text, size_t size)
{
    char wanted[64];
    Length length = 0;
    folded(name, wanted, sizeof wanted);
    bool sized =
        size_in_name(name, &length) && table_count(table) && row_size(table, table_row(table, 0));
    const void *chosen[NEIGHBOURS] = {NULL};
    for (size_t n = 0; n < NEIGHBOURS; n++) {
        guint64 least = G_MAXUINT64;
        for (size_t i = 0; i < table_count(table); i++) {
            const void *row = table_row(table, i);
            guint64 far = strangeness(table, row, wanted, sized, length);
            if (far < least && row != chosen[0] && row != chosen[1]) {
                least = far;
                chosen[n] = row;
            }
        }
        if (!chosen[n])
            return;
        if (n)
            g_strlcat(text, ", ", size);
        g_strlcat(text, table_row_name(chosen[n]), size);
    }
}

const void *table_seek(const Table *table, const char *what, const char *name, Error *error)
{
    const void *row = table_find(table, name);
    if (!row)
        row = find_loosely(table, name);
    if (row)
        return row;
    char neighbours[200] = "";
    name_neighbours(table, name, neighbours, sizeof neighbours);
    error_set(error, ERROR_MISSING, NULL, "there is no %s \"%.40s\"; the nearest are %s", what,
              name, neighbours);
    return NULL;
}
