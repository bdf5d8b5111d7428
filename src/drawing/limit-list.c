#include "drawing/limit-list.h"

#include "checks/rule-limits.h"
#include "drawing/figure.h"

#include <string.h>

/* A limit as its rule gives it, in the plate's unit. */
static char *value_words(const DrawingSource *source, const RuleLimit *limit, double value)
{
    char text[FIGURE_TEXT];
    const Settings *settings = plate_settings(source->plate);
    FigureStyle style = figure_style(settings);
    if (limit->kind == VALUE_LENGTH)
        return g_strdup_printf("%s %s", figure_length(style, length_from_mm(value), text),
                               settings->unit == PLATE_INCH ? "in" : "mm");
    if (limit->kind == VALUE_ANGLE)
        return g_strdup(figure_angle(angle_from_degrees(value), text));
    return g_strdup(g_ascii_formatd(text, sizeof text, "%.4g", value));
}

/* A plate may change a limit and set it to what it starts from. */
static bool is_changed(const Settings *settings, const Rule *rule, const RuleLimit *limit)
{
    for (uint32_t i = 0; i < settings->limits.count; i++) {
        const ChangedLimit *changed = LIST_AT(&settings->limits, ChangedLimit, i);
        if (changed->rule && changed->limit && strcmp(changed->rule, rule->slug) == 0 &&
            strcmp(changed->limit, limit->name) == 0)
            return true;
    }
    return false;
}

static void add_limits(TableText *text, const DrawingSource *source, bool changed_only)
{
    Limits limits;
    const Settings *settings = plate_settings(source->plate);
    limits_read(&limits, settings);
    for (int r = 0; r < rule_count(); r++) {
        const Rule *rule = rule_at(r);
        for (int i = 0; i < rule->limit_count; i++) {
            const RuleLimit *limit = &rule->limits[i];
            bool changed = is_changed(settings, rule, limit);
            if (changed_only && !changed)
                continue;
            /* In the long list a rule is named once. */
            table_text_add(text, changed_only || i == 0 ? rule->title : "");
            table_text_add(text, limit->says);
            table_text_take(text, value_words(source, limit, limits.values[r][i]));
            table_text_take(text,
                            changed ? value_words(source, limit, limit->starting) : g_strdup(""));
        }
    }
}

static void draw(Flow *flow, const DrawingSource *source, const char *heading, bool changed_only)
{
    static const TableColumn columns[] = {{"Check", TEXT_START, 46, 0, false},
                                          {"What it limits", TEXT_START, 0, 0, false},
                                          {"In force", TEXT_END, 0, 0, false},
                                          {"Usual", TEXT_END, 0, 0, false}};
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    add_limits(&text, source, changed_only);
    if (table_text_rows(&text) > 0)
        flow_heading(flow, heading);
    flow_table(flow, &text, 1, false);
    table_text_end(&text);
}

void limit_list_draw_changed(Flow *flow, const DrawingSource *source)
{
    draw(flow, source, "Limits changed for this plate", true);
}

void limit_list_draw(Flow *flow, const DrawingSource *source)
{
    draw(flow, source, "Limits in force", false);
}
