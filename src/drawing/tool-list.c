#include "drawing/tool-list.h"

#include "drawing/figure.h"

#define WRITTEN 26.0 /* width of a column to write in, mm */

/* How often the setting uses a tool, and how far below the face it goes there. */
static uint32_t uses(const Setting *setting, uint32_t tool, double *reach)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < setting->step_count; i++) {
        if (setting->steps[i].tool != tool)
            continue;
        *reach = fmax(*reach, setting->steps[i].tip);
        count++;
    }
    return count;
}

static void add_tool(TableText *text, FigureStyle style, const Shopplan *plan, uint32_t tool,
                     uint32_t count, double reach)
{
    char words[TOOL_TEXT], figure[FIGURE_TEXT];
    table_text_take(text, g_strdup_printf("%u", plan->tools[tool].number));
    table_text_add(text, tool_text(&plan->tools[tool], style.unit, words));
    table_text_take(text, g_strdup_printf("%u", count));
    table_text_add(text, figure_stack(figure_length(style, length_from_mm(reach), figure)));
    table_text_add(text, "");
    table_text_add(text, "");
}

void tool_list_draw(Flow *flow, const DrawingSource *source, const Shopplan *plan,
                    const Setting *setting)
{
    static const TableColumn columns[] = {{"Tool", TEXT_END, 0, 0, false},
                                          {"What", TEXT_START, 0, 0, false},
                                          {"Uses", TEXT_END, 0, 0, false},
                                          {"Reach", TEXT_END, 0, 0, false},
                                          {"Stick-out", TEXT_END, WRITTEN, 0, false},
                                          {"Offset", TEXT_END, WRITTEN, 0, false}};
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t tool = 0; tool < plan->tool_count; tool++) {
        uint32_t count = 0;
        double reach = 0;
        for (uint32_t s = 0; s < plan->setting_count; s++) {
            if (!setting || setting == &plan->settings[s])
                count += uses(&plan->settings[s], tool, &reach);
        }
        if (count > 0)
            add_tool(&text, flow->style, plan, tool, count, reach);
    }
    flow_heading(flow, setting ? "Tools of this setting" : "Tools");
    if (table_text_rows(&text) == 0)
        flow_paragraph(flow, "None: nothing is left to be made.");
    else
        flow_lead(flow, "Reach: how far below the face the tool's end goes at the most. Choose "
                        "the stick-out above it, and above all that stands on the face.");
    flow_table(flow, &text, 1, true);
    table_text_end(&text);
}
