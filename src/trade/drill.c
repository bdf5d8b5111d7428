#include "trade/drill.h"

#include "trade/table.h"
#include "trade/unit.h"

#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

size_t drill_count(void)
{
    return table_count(&drill_table);
}

const Drill *drill_at(size_t index)
{
    return table_row(&drill_table, index);
}

static bool in_set(const Drill *drill, DrillSet set)
{
    return (DRILL_SET(drill->series) & set) != 0;
}

const Drill *drill_at_or_above(Length diameter, DrillSet set)
{
    for (size_t i = 0; i < drill_count(); i++)
        if (in_set(drill_at(i), set) && drill_at(i)->diameter >= diameter)
            return drill_at(i);
    return NULL;
}

const Drill *drill_at_or_below(Length diameter, DrillSet set)
{
    const Drill *best = NULL;
    for (size_t i = 0; i < drill_count(); i++) {
        const Drill *drill = drill_at(i);
        if (drill->diameter > diameter)
            break;
        if (in_set(drill, set) && (!best || drill->diameter > best->diameter))
            best = drill;
    }
    return best;
}

const Drill *drill_nearest(Length diameter, DrillSet set)
{
    const Drill *below = drill_at_or_below(diameter, set);
    const Drill *above = drill_at_or_above(diameter, set);
    if (!below || !above)
        return below ? below : above;
    return diameter - below->diameter <= above->diameter - diameter ? below : above;
}

/* A fraction of an inch or a metric size may be written in more ways than its name. */
static bool plain_diameter(const char *name, DrillSeries *series, Length *diameter)
{
    int top, bottom, used = 0;
    if (sscanf(name, "%4d/%4d%n", &top, &bottom, &used) == 2 && top > 0 && bottom > 0 &&
        strspn(name + used, " in\"") == strlen(name + used)) {
        *series = DRILL_FRACTION;
        *diameter = LENGTH_INCH * top / bottom;
        return LENGTH_INCH * top % bottom == 0;
    }
    const char *end = strstr(name, "mm");
    char number[LENGTH_TEXT];
    if (!end || end[2] || (size_t)(end - name) >= sizeof number)
        return false;
    g_strlcpy(number, name, (gsize)(end - name) + 1);
    g_strchomp(number);
    *series = DRILL_METRIC;
    return millionths_read(number, LENGTH_GREATEST, diameter);
}

/* "No. 7", "no 7" and "# 7" become "#7", "f" becomes "F"; other names are left. */
static void usual_name(const char *name, char *usual, size_t size)
{
    static const char *const marks[] = {"no.", "no", "#"};
    for (size_t i = 0; i < G_N_ELEMENTS(marks); i++) {
        size_t count = strlen(marks[i]);
        if (g_ascii_strncasecmp(name, marks[i], count) != 0)
            continue;
        const char *digits = name + count + strspn(name + count, " ");
        if (g_ascii_isdigit(*digits)) {
            g_snprintf(usual, (gulong)size, "#%s", digits);
            return;
        }
    }
    g_strlcpy(usual, name, size);
    if (strlen(usual) == 1)
        usual[0] = g_ascii_toupper(usual[0]);
}

static const Drill *find_exactly(DrillSeries series, Length diameter)
{
    for (size_t i = 0; i < drill_count(); i++)
        if (drill_at(i)->series == series && drill_at(i)->diameter == diameter)
            return drill_at(i);
    return NULL;
}

static const Drill *no_such_drill(const char *name, bool sized, Length diameter, Error *error)
{
    if (!sized) {
        error_set(error, ERROR_MISSING, NULL,
                  "there is no drill \"%.40s\"; there are #1 to #97, A to Z, 1/64 to 1in by 64ths "
                  "and 0.1mm to 13mm by tenths",
                  name);
        return NULL;
    }
    const Drill *below = drill_at_or_below(diameter, DRILL_SET_ALL);
    const Drill *above = drill_at_or_above(diameter, DRILL_SET_ALL);
    char low[LENGTH_PEOPLE_TEXT] = "none", high[LENGTH_PEOPLE_TEXT] = "none";
    if (below)
        drill_text(below, low, sizeof low);
    if (above)
        drill_text(above, high, sizeof high);
    error_set(error, ERROR_MISSING, NULL,
              "there is no drill \"%.40s\"; the nearest below is %s, above %s", name, low, high);
    return NULL;
}

const Drill *drill_find(const char *name, Error *error)
{
    char usual[LENGTH_TEXT];
    usual_name(name, usual, sizeof usual);
    const Drill *drill = table_find(&drill_table, usual);
    if (drill)
        return drill;
    DrillSeries series;
    Length diameter = 0;
    bool sized = strlen(name) < sizeof usual && plain_diameter(usual, &series, &diameter);
    drill = sized ? find_exactly(series, diameter) : NULL;
    return drill ? drill : no_such_drill(name, sized, diameter, error);
}

size_t drill_text(const Drill *drill, char *text, size_t size)
{
    char size_text[LENGTH_PEOPLE_TEXT];
    Unit unit = drill->series == DRILL_METRIC ? UNIT_MM : UNIT_INCH;
    length_text_with_unit(drill->diameter, unit, size_text);
    int count;
    if (drill->series == DRILL_METRIC)
        count = g_snprintf(text, (gulong)size, "drill %s", size_text);
    else if (drill->series == DRILL_NUMBER && drill->name[0] == '#')
        count = g_snprintf(text, (gulong)size, "drill No. %s, %s", drill->name + 1, size_text);
    else
        count = g_snprintf(text, (gulong)size, "drill %s, %s", drill->name, size_text);
    return MIN((size_t)count, size ? size - 1 : 0);
}

double drill_point_length(double diameter, double point_angle)
{
    return diameter / (2 * tan(point_angle / 2 * M_PI / 180));
}
