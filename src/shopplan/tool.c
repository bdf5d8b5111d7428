#include "shopplan/tool.h"

#include "trade/drill.h"

#include <stdio.h>
#include <string.h>

static const char *const kinds[] = {"spot drill", "drill",  "counterbore", "countersink",
                                    "boring bar", "reamer", "tap",         "cutter"};
static const char *const taps[] = {"unstated", "plug", "bottoming", "spiral-flute", "forming"};

static int compare(int64_t a, int64_t b)
{
    return (a > b) - (a < b);
}

static int compare_sizes(const Tool *a, const Tool *b)
{
    int order = compare(a->diameter, b->diameter);
    if (!order)
        order = compare(a->point, b->point);
    if (!order)
        order = g_strcmp0(a->thread, b->thread);
    if (!order)
        order = compare(a->tap, b->tap);
    if (!order)
        order = compare(a->upper, b->upper);
    return order ? order : compare(a->lower, b->lower);
}

int tool_compare(const Tool *a, const Tool *b)
{
    int order = compare(a->kind, b->kind);
    return order ? order : compare_sizes(a, b);
}

int tool_rank(const Tool *a, const Tool *b)
{
    int order = compare(a->kind, b->kind);
    if (!order)
        order = compare(a->only_tap_drill, b->only_tap_drill);
    return order ? order : compare_sizes(a, b);
}

void tool_clear(Tool *tool)
{
    g_free(tool->thread);
    *tool = (Tool){.number = 0};
}

const char *tool_kind_name(int kind)
{
    return kinds[kind];
}

const char *step_tap_name(int tap)
{
    return taps[tap];
}

#define FIGURE (LENGTH_TEXT + 8)

static const char *figure(Length length, PlateUnit unit, char text[FIGURE])
{
    if (unit == PLATE_INCH) {
        char number[FIGURE];
        g_ascii_formatd(number, sizeof number, "%.4f", length_to_mm(length) / 25.4);
        g_snprintf(text, FIGURE, "%s in", number);
        return text;
    }
    char number[LENGTH_TEXT];
    millionths_write(length, number);
    g_snprintf(text, FIGURE, "%s mm", number);
    return text;
}

/* A limit without its unit, which stands behind the diameter. */
static const char *limit(Length length, PlateUnit unit, char text[FIGURE])
{
    char number[FIGURE];
    if (unit == PLATE_INCH)
        g_ascii_formatd(number, sizeof number, "%.4f", length_to_mm(length) / 25.4);
    else
        millionths_write(length, number);
    g_snprintf(text, FIGURE, "%s%s", length > 0 ? "+" : "", length ? number : "0");
    return text;
}

/* The drill of just this size, one of the plate's own unit first. */
static const Drill *drill_of(Length diameter, PlateUnit unit)
{
    DrillSet metric = DRILL_SET(DRILL_METRIC);
    DrillSet sets[] = {unit == PLATE_MM ? metric : DRILL_SET_ALL & ~metric, DRILL_SET_ALL};
    for (size_t i = 0; i < G_N_ELEMENTS(sets); i++) {
        const Drill *drill = drill_nearest(diameter, sets[i]);
        if (drill && drill->diameter == diameter)
            return drill;
    }
    return NULL;
}

static void add_point(const Tool *tool, char text[TOOL_TEXT])
{
    char degrees[LENGTH_TEXT];
    size_t used = strlen(text);
    if (tool->point <= 0) {
        g_snprintf(text + used, TOOL_TEXT - used, ", flat end");
        return;
    }
    angle_write(tool->point, degrees);
    g_snprintf(text + used, TOOL_TEXT - used, ", point %s deg", degrees);
}

static void drill_tool_text(const Tool *tool, PlateUnit unit, char text[TOOL_TEXT])
{
    char size[FIGURE];
    const Drill *drill = drill_of(tool->diameter, unit);
    if (drill)
        drill_text(drill, text, TOOL_TEXT);
    else
        g_snprintf(text, TOOL_TEXT, "drill %s", figure(tool->diameter, unit, size));
    add_point(tool, text);
}

const char *tool_text(const Tool *tool, PlateUnit unit, char text[TOOL_TEXT])
{
    char size[FIGURE], upper[FIGURE], lower[FIGURE];
    figure(tool->diameter, unit, size);
    switch (tool->kind) {
    case TOOL_DRILL:
        drill_tool_text(tool, unit, text);
        break;
    case TOOL_SPOT_DRILL:
    case TOOL_COUNTERSINK:
        g_snprintf(text, TOOL_TEXT, "%s %s", kinds[tool->kind], size);
        add_point(tool, text);
        break;
    case TOOL_REAMER:
    case TOOL_BORING_BAR:
        g_snprintf(text, TOOL_TEXT, "%s %s", kinds[tool->kind], size);
        if (tool->upper || tool->lower) {
            size_t used = strlen(text);
            g_snprintf(text + used, TOOL_TEXT - used, " %s/%s", limit(tool->upper, unit, upper),
                       limit(tool->lower, unit, lower));
        }
        break;
    case TOOL_TAP:
        g_snprintf(text, TOOL_TEXT, "tap %.48s, %s", tool->thread ? tool->thread : size,
                   taps[tool->tap]);
        break;
    case TOOL_CUTTER:
        if (tool->diameter > 0)
            g_snprintf(text, TOOL_TEXT, "cutter, %s at the most", size);
        else
            g_snprintf(text, TOOL_TEXT, "cutter: none fits the square corners");
        break;
    default:
        g_snprintf(text, TOOL_TEXT, "%s %s", kinds[tool->kind], size);
        break;
    }
    return text;
}
