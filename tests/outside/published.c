#include "published.h"

#include <glib.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static char *readme;

static void must_be_in_readme(const char *row)
{
    if (!readme) {
        char *path =
            g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "tests", "outside", "README.md", NULL);
        if (!g_file_get_contents(path, &readme, NULL, NULL))
            fail_msg("%s can't be read", path);
        g_free(path);
    }
    if (!strstr(readme, row))
        fail_msg("tests/outside/README.md lacks this row; make its table anew:\n%s", row);
}

static void collect(const char *row)
{
    const char *path = g_getenv("PUBLISHED_TABLE");
    if (!path) {
        must_be_in_readme(row);
        return;
    }
    FILE *file = fopen(path, "a");
    assert_non_null(file);
    fputs(row, file);
    fclose(file);
}

/* Halves are rounded away from 0, as the standards do, whatever the binary fraction says. */
static void written(double value, int decimals, char *text, size_t size)
{
    double scale = pow(10, decimals);
    double whole = floor(fabs(value) * scale + 0.5 + 1e-7);
    double rounded = copysign(whole / scale, value);
    g_snprintf(text, size, "%.*f", decimals, whole == 0 ? 0 : rounded);
}

void published(const char *figure, double ours, const char *theirs, const char *unit,
               const char *source, Witness witness)
{
    const char *point = strchr(theirs, '.');
    char text[64];
    written(ours, point ? (int)strlen(point + 1) : 0, text, sizeof text);
    if (strcmp(text, theirs) != 0)
        fail_msg("%s: ours is %s (%.9g), published %s (%s)", figure, text, ours, theirs, source);
    const char *gap = *unit ? " " : "";
    char *row =
        g_strdup_printf("| %s | %s%s%s | %s%s%s | %s | %s |\n", figure, text, gap, unit, theirs,
                        gap, unit, source, witness == SEEN ? "seen" : "from memory");
    collect(row);
    g_free(row);
}

void published_length(const char *figure, Length ours, const char *theirs, const char *unit,
                      const char *source, Witness witness)
{
    double one = !strcmp(unit, "in")   ? (double)LENGTH_INCH
                 : !strcmp(unit, "mm") ? (double)LENGTH_MM
                                       : (double)LENGTH_UM;
    published(figure, (double)ours / one, theirs, unit, source, witness);
}
