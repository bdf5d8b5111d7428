#include "drawing/operation-sheets.h"

#include "drawing/datum-letter.h"
#include "drawing/figure.h"
#include "drawing/setting-picture.h"
#include "drawing/sign.h"
#include "drawing/tilt-table.h"
#include "drawing/tolerance.h"
#include "drawing/tool-list.h"

#define PICTURE 122.0
#define PLACES_MOST 12 /* in one row, so that a cell shows them all */

char *operation_sheets_title(const DrawingSource *source, FeatureId operation, FeatureId face)
{
    const Record *record = placed_record(source->placed, operation);
    const Record *face_record = placed_record(source->placed, face);
    const char *name = record && record->kind == RECORD_OPERATION ? record->operation.name : NULL;
    const char *face_name =
        face_record && face_record->kind == RECORD_FACE ? face_record->face.name : NULL;
    if (name)
        return g_strdup_printf("Operation %s, face %s", name, face_name ? face_name : "top");
    return g_strdup_printf("Making the plate, face %s", face_name ? face_name : "top");
}

/* What lies where, and what to indicate. The limits are common practice, no source. */
static void draw_setting(Flow *flow, const DrawingSource *source, FeatureId face)
{
    const Record *record = placed_record(source->placed, face);
    bool inches = flow->style.unit == PLATE_INCH;
    char *datums = datum_words(source);
    char *text = g_strdup_printf(
        "X and Y count from the datum sign, Z from the face. %s Indicate the edge that X runs "
        "along to %s over its length, and the face to the same.",
        datums, inches ? ".0005 in" : "0.01 mm");
    flow_paragraph(flow, text);
    g_free(text);
    g_free(datums);
    if (!record || record->kind != RECORD_FACE || record->face.kind != FACE_INCLINED)
        return;
    char angle[FIGURE_TEXT], name[NAME_TEXT];
    const Record *hole = placed_record(source->placed, record->face.reference_hole);
    bool has_hole = hole && hole->kind == RECORD_HOLE;
    text = g_strdup_printf("Tilt the plate by %s so that the face lies level, with the break line "
                           "along X. Pick the face up at %s.",
                           figure_angle(record->face.angle, angle),
                           has_hole ? shopplan_name(hole, name) : "the end of its break line");
    flow_paragraph(flow, text);
    g_free(text);
}

static bool same_step(const PlanStep *a, const PlanStep *b)
{
    return a->tool == b->tool && a->through == b->through && fabs(a->tip - b->tip) < 1e-6 &&
           fabs(a->full - b->full) < 1e-6 && fabs(a->peck - b->peck) < 1e-6;
}

static const char *label_of(const HoleTable *table, FeatureId feature)
{
    for (size_t i = 0; i < table->count; i++) {
        if (table->rows[i].feature == feature)
            return table->rows[i].label;
    }
    return "";
}

static void take_depth(TableText *text, FigureStyle style, double depth)
{
    char figure[FIGURE_TEXT];
    figure_length(style, length_from_mm(depth), figure);
    table_text_add(text, depth > 0 ? figure_stack(figure) : "");
}

/* One row for steps `first` to before `end`, which differ in their places alone. */
static void add_steps(TableText *text, FigureStyle style, const Shopplan *plan,
                      const Setting *setting, const HoleTable *table, uint32_t first, uint32_t end)
{
    const PlanStep *step = &setting->steps[first];
    const Tool *tool = &plan->tools[step->tool];
    GString *places = g_string_new(NULL);
    for (uint32_t i = first; i < end; i++)
        g_string_append_printf(places, "%s%s", i > first ? ", " : "",
                               label_of(table, setting->steps[i].feature));
    table_text_take(text, g_strdup_printf("%zu", table_text_rows(text) + 1));
    table_text_take(text, g_strdup_printf("%u %s", tool->number, tool_kind_name(tool->kind)));
    table_text_take(text, g_string_free(places, FALSE));
    take_depth(text, style, step->tip);
    if (step->through)
        table_text_add(text, "THRU");
    else
        take_depth(text, style, step->full);
    take_depth(text, style, step->peck);
    table_text_add(text, SIGN_SQUARE);
}

static void draw_steps(Flow *flow, const Shopplan *plan, const Setting *setting,
                       const HoleTable *table)
{
    static const TableColumn columns[] = {
        {"Step", TEXT_END, 0, 0, false},     {"Tool", TEXT_START, 0, 0, false},
        {"Places", TEXT_START, 0, 0, false}, {"Tip", TEXT_END, 0, 0, false},
        {"Full", TEXT_END, 0, 0, false},     {"Peck", TEXT_END, 0, 0, false},
        {"", TEXT_END, 0, 0, false}};
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; i < setting->step_count;) {
        uint32_t end = i + 1;
        while (end < setting->step_count && end - i < PLACES_MOST &&
               same_step(&setting->steps[i], &setting->steps[end]))
            end++;
        add_steps(&text, flow->style, plan, setting, table, i, end);
        i = end;
    }
    flow_heading(flow, "Steps");
    char *words = g_strdup_printf(
        "In this order; X and Y of each place stand in the hole table. Tip: how far below the face "
        "the tool's end goes, its point and breaking through allowed for. Full: depth of the full "
        "diameter or thread. Peck: lift out after each bite. %u tools, %u changes%s.",
        setting->tool_count, setting->changes, setting->fewest ? "; no order has fewer" : "");
    flow_lead(flow, words);
    g_free(words);
    flow_table(flow, &text, 2, true);
    table_text_end(&text);
}

static bool uses_kind(const Shopplan *plan, const Setting *setting, int kind)
{
    for (uint32_t i = 0; i < setting->step_count; i++) {
        if (plan->tools[setting->steps[i].tool].kind == kind)
            return true;
    }
    return false;
}

static void draw_checks(Flow *flow, const DrawingSource *source, const Shopplan *plan,
                        const Setting *setting)
{
    flow_heading(flow, "Before going on");
    flow_paragraph(flow, SIGN_SQUARE " After the spot drill: every mark is where the drawing has "
                                     "it, counted against the hole table.");
    if (setting->close_count > 0) {
        char *text = g_strdup_printf(
            SIGN_SQUARE " Before the plate is unclamped: gauge each hole with a position (%u), and "
                        "measure its place from the datum. It can't be made good later.",
            setting->close_count);
        flow_paragraph(flow, text);
        g_free(text);
    }
    if (uses_kind(plan, setting, TOOL_TAP))
        flow_paragraph(flow, SIGN_SQUARE " Taps: by machine only where the spindle reverses or the "
                                         "holder floats, else started in the spindle and finished "
                                         "by hand in this setting. Clear the chips first, and try "
                                         "full thread with the screw itself.");
    if (uses_kind(plan, setting, TOOL_CUTTER))
        flow_paragraph(flow, SIGN_SQUARE " Try a blank or a clamp in each slot and nest.");
    flow_paragraph(flow, SIGN_SQUARE " Edges broken as the notes say; the plate marked.");
}

/* Sentences of the plan that say something of this plate. */
static void draw_remarks(Flow *flow, const Shopplan *plan)
{
    if (plan->remarks->len > 0)
        flow_heading(flow, "To look at first");
    for (guint i = 0; i < plan->remarks->len; i++) {
        char *text = g_strdup(g_ptr_array_index(plan->remarks, i));
        *text = g_ascii_toupper(*text);
        flow_paragraph(flow, text);
        g_free(text);
    }
}

void operation_sheets_draw(Flow *flow, const DrawingSource *source, const Shopplan *plan,
                           const Setting *setting, const HoleTable *table)
{
    char *title = operation_sheets_title(source, setting->operation, setting->face);
    const Record *record = placed_record(source->placed, setting->operation);
    bool named = record && record->kind == RECORD_OPERATION;
    HoleTable *own = hole_table_new_in(source, setting->face, flow->style);
    const char *name = flow->name;
    flow->name = title;
    flow_new_sheet(flow);
    flow_heading(flow, title);
    setting_picture_draw(flow, source, own, setting->face, named ? &record->operation.fitted : NULL,
                         false, PICTURE);
    draw_setting(flow, source, setting->face);
    if (named && record->operation.note)
        flow_paragraph(flow, record->operation.note);
    tilt_table_draw(flow, source, own, setting->face);
    if (setting == plan->settings) /* they are the whole plan's: said once */
        draw_remarks(flow, plan);
    tool_list_draw(flow, source, plan, setting);
    draw_steps(flow, plan, setting, table);
    draw_checks(flow, source, plan, setting);
    flow->name = name;
    hole_table_free(own);
    g_free(title);
}
