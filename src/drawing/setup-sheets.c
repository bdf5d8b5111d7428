#include "drawing/setup-sheets.h"

#include "drawing/figure.h"
#include "drawing/item-list.h"
#include "drawing/setting-picture.h"
#include "drawing/sign.h"
#include "drawing/worked-figures.h"

#include <string.h>

#define PICTURE 122.0
#define WRITTEN 32.0 /* width of a column to write in, mm */
#define LOG_ROWS 10

/* What is run: an operation, or NULL for a plate that names none. */
typedef struct Run {
    const DrawingSource *source;
    const Operation *operation;
    List fitted; /* FeatureId; borrowed */
    FeatureId face;
    FigureStyle style;
} Run;

/* --- hardware ------------------------------------------------------------------------------- */

static char *torque_words(const DrawingSource *source, FigureStyle style, const Fitting *fitting)
{
    const Record *hole = placed_record(source->placed, fitting->hole);
    const char *why;
    char figure[FIGURE_TEXT];
    if (fitting->kind == FITTING_EDGE_CLAMP)
        return g_strdup("as its maker says");
    if (fitting->kind == FITTING_DOWEL || fitting->kind == FITTING_RELIEVED_PIN)
        return g_strdup("pressed in");
    double torque =
        hole && hole->kind == RECORD_HOLE ? worked_torque(source, &hole->hole, &why) : 0;
    if (torque <= 0)
        return g_strdup("");
    return g_strdup_printf("%s, by %s", figure_torque(style, torque, figure), why);
}

static char *item_key(const DrawingSource *source, FigureStyle style, const Fitting *fitting)
{
    char *words = item_words(source, fitting), *torque = torque_words(source, style, fitting);
    char *key = g_strdup_printf("%s|%s", words, torque);
    g_free(words);
    g_free(torque);
    return key;
}

static const char *goes_in(const DrawingSource *source, const Fitting *fitting)
{
    FeatureId in = fitting->kind == FITTING_EDGE_CLAMP ? fitting->slot : fitting->hole;
    const Record *record = in ? placed_record(source->placed, in) : NULL;
    const char *label = record ? record_label(record) : NULL;
    return label ? label : "";
}

static const Fitting *fitting_at(const Run *run, uint32_t i)
{
    FeatureId id = *LIST_AT(&run->fitted, FeatureId, i);
    const Record *record = placed_record(run->source->placed, id);
    return record && record->kind == RECORD_FITTING ? &record->fitting : NULL;
}

static void add_item(TableText *text, const Run *run, char **keys, uint32_t first)
{
    GString *places = g_string_new(NULL);
    size_t count = 0;
    for (uint32_t i = first; i < run->fitted.count; i++) {
        if (!keys[i] || strcmp(keys[first], keys[i]) != 0)
            continue;
        count++;
        g_string_append_printf(places, "%s%s", places->len ? ", " : "",
                               goes_in(run->source, fitting_at(run, i)));
    }
    char **cells = g_strsplit(keys[first], "|", 2);
    table_text_take(text, g_strdup_printf("%zu", count));
    table_text_add(text, cells[0]);
    table_text_take(text, g_string_free(places, FALSE));
    table_text_add(text, cells[1]);
    table_text_add(text, SIGN_SQUARE);
    g_strfreev(cells);
}

static void draw_hardware(Flow *flow, const Run *run)
{
    static const TableColumn columns[] = {{"Count", TEXT_END, 0, 0, false},
                                          {"What", TEXT_START, 0, 0, false},
                                          {"Goes in", TEXT_START, 34, 0, false},
                                          {"Tighten", TEXT_START, 38, 0, false},
                                          {"", TEXT_END, 0, 0, false}};
    char **keys = g_new0(char *, run->fitted.count + 1);
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; i < run->fitted.count; i++)
        keys[i] = fitting_at(run, i) ? item_key(run->source, run->style, fitting_at(run, i)) : NULL;
    for (uint32_t i = 0; i < run->fitted.count; i++) {
        bool seen = !keys[i];
        for (uint32_t j = 0; j < i && !seen; j++)
            seen = keys[j] && strcmp(keys[i], keys[j]) == 0;
        if (!seen)
            add_item(&text, run, keys, i);
    }
    if (table_text_rows(&text) > 0) {
        flow_heading(flow, "What is fitted");
        flow_lead(flow, "Torque: the lesser of what the screw and the plate's thread allow, "
                        "by common practice, dry; an estimate. Shoulders are seated first, "
                        "then screws and clamps in turn, twice.");
    }
    flow_table(flow, &text, 1, true);
    table_text_end(&text);
    for (uint32_t i = 0; i < run->fitted.count; i++)
        g_free(keys[i]);
    g_free(keys);
}

/* --- cutters -------------------------------------------------------------------------------- */

static void take_length(TableText *text, FigureStyle style, Length length)
{
    char figure[FIGURE_TEXT];
    table_text_add(text, length != 0 ? figure_stack(figure_length(style, length, figure)) : "");
}

static void draw_passes(Flow *flow, const Run *run)
{
    /* Figures in both units leave less room for words. */
    bool both = run->style.both;
    const TableColumn columns[] = {{"Pass", TEXT_START, 0, 30, false},
                                   {"Where", TEXT_START, 0, both ? 22 : 44, false},
                                   {"Cutter", TEXT_END, 0, 0, false},
                                   {"Flute", TEXT_END, 0, 0, false},
                                   {"Stick-out", TEXT_END, 0, both ? 16 : 0, false},
                                   {"Below part", TEXT_END, 0, both ? 16 : 22, false},
                                   {"Left on", TEXT_END, 0, both ? 14 : 20, false},
                                   {"Time", TEXT_END, both ? 15 : 18, 0, false}};
    static const char *const places[] = {"outside the outline", "inside the outline", "the bevel",
                                         "holes"};
    FigureStyle style = run->style;
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; run->operation && i < run->operation->passes.count; i++) {
        const Pass *pass = LIST_AT(&run->operation->passes, Pass, i);
        table_text_add(&text, pass->name);
        table_text_add(&text, places[pass->where]);
        take_length(&text, style, pass->cutter_diameter);
        take_length(&text, style, pass->flute_length);
        take_length(&text, style, pass->gauge_length);
        take_length(&text, style, pass->depth_below);
        take_length(&text, style, pass->stock_left);
        table_text_add(&text, "");
    }
    if (table_text_rows(&text) > 0)
        flow_heading(flow, "Cutters, in order");
    flow_table(flow, &text, 1, false);
    table_text_end(&text);
}

/* --- what to do ----------------------------------------------------------------------------- */

static void draw_seating(Flow *flow, const Run *run)
{
    bool inches = run->style.unit == PLATE_INCH;
    const Record *base =
        plate_find_kind(run->source->plate, placed_base(run->source->placed), RECORD_BASE);
    char figure[FIGURE_TEXT];
    flow_heading(flow, "Putting it on");
    flow_paragraph(flow, SIGN_SQUARE " Wipe the base, the underside, the locators and the nests. "
                                     "FRONT faces the maker.");
    char *text = g_strdup_printf(
        SIGN_SQUARE " Seated: no shim of %s goes in at any corner. Indicate the front edge along X "
                    "to %s. Z is touched off on the top of the plate, not on a part.",
        inches ? ".0015 in" : "0.04 mm", inches ? ".0005 in" : "0.01 mm");
    flow_paragraph(flow, text);
    g_free(text);
    if (base && base->base.repeatability > 0) {
        text = g_strdup_printf("Base %s: the plate comes back to within %s %s.",
                               base->base.name ? base->base.name : "",
                               figure_length(run->style, base->base.repeatability, figure),
                               inches ? "in" : "mm");
        flow_paragraph(flow, text);
        g_free(text);
    }
    flow_paragraph(flow, SIGN_SQUARE " Every part lies flat and against its locators before "
                                     "anything is tightened. Spin the spindle by hand over each "
                                     "clamp and screw head, or run the program above the work.");
}

static bool runs_station(const Run *run, FeatureId station)
{
    if (!run->operation || run->operation->stations.count == 0)
        return true;
    for (uint32_t i = 0; i < run->operation->stations.count; i++) {
        if (*LIST_AT(&run->operation->stations, FeatureId, i) == station)
            return true;
    }
    return false;
}

static uint32_t count_stations(const Run *run)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < plate_count(run->source->plate); i++) {
        const Record *record = plate_at(run->source->plate, i);
        count += record->kind == RECORD_STATION && runs_station(run, record->id);
    }
    return count;
}

static void add_measurement(TableText *text, const char *what, const char *limits)
{
    table_text_add(text, what);
    table_text_add(text, limits);
    table_text_add(text, "");
    table_text_add(text, "");
}

/* Rows for a part: its thickness and its holes, and what the bevel leaves. */
static void add_part(TableText *text, const Run *run, const Part *part)
{
    char figure[FIGURE_TEXT], limits[FIGURE_LIMITS];
    FigureStyle style = run->style;
    char *what = g_strdup_printf("%s: thickness", part->name ? part->name : "Part");
    char *within = g_strdup_printf(
        "%s %s", figure_length(style, part->thickness, figure),
        part->thickness_tolerance
            ? figure_limits(style, part->thickness_tolerance, -part->thickness_tolerance, limits)
            : "");
    add_measurement(text, what, g_strchomp(within));
    g_free(what);
    g_free(within);
    if (part->bevel.angle != 0) {
        add_measurement(text, "Edge thickness, at both ends",
                        figure_length(style, part->bevel.edge_thickness, figure));
        add_measurement(text, "Bevel's height, both sides alike", "");
    }
    add_measurement(text, "Profile from the first locating hole, along X", "");
    add_measurement(text, "The same along Y", "");
}

static void draw_first_part(Flow *flow, const Run *run)
{
    static const TableColumn columns[] = {{"First part: what", TEXT_START, 0, 0, false},
                                          {"Limits", TEXT_START, 0, 0, false},
                                          {"Measured", TEXT_END, WRITTEN, 0, false},
                                          {"Correction", TEXT_END, WRITTEN, 0, false}};
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; i < plate_count(run->source->plate); i++) {
        const Record *record = plate_at(run->source->plate, i);
        if (record->kind == RECORD_PART)
            add_part(&text, run, &record->part);
    }
    if (table_text_rows(&text) > 0) {
        flow_heading(flow, "First part");
        flow_lead(flow, "Measured less wanted, the sign turned round, is the correction: half "
                        "of it for a width cut from both sides.");
    }
    flow_keep_whole(flow);
    flow_table(flow, &text, 0, true);
    table_text_end(&text);
}

static void draw_log(Flow *flow, const Run *run)
{
    static const TableColumn columns[] = {
        {"Load", TEXT_END, 16, 0, false},    {"Date", TEXT_START, WRITTEN, 0, false},
        {"Parts", TEXT_END, 20, 0, false},   {"Good", TEXT_END, 20, 0, false},
        {"Minutes", TEXT_END, 26, 0, false}, {"Remarks, tool changes", TEXT_START, 40, 0, false}};
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (int row = 1; row <= LOG_ROWS; row++) {
        table_text_take(&text, g_strdup_printf("%d", row));
        for (size_t c = 1; c < G_N_ELEMENTS(columns); c++)
            table_text_add(&text, "");
    }
    flow_heading(flow, "Loads");
    char *words = g_strdup_printf("Parts a load: %u. Plates in use: ______. Minutes at the machine "
                                  "a load: ______, beside it: ______.",
                                  count_stations(run));
    flow_lead(flow, words);
    g_free(words);
    flow_keep_whole(flow);
    flow_table(flow, &text, 5, true);
    table_text_end(&text);
}

static void draw_run(Flow *flow, const Run *run)
{
    HoleTable *table = hole_table_new(run->source, run->face);
    char *title = run->operation && run->operation->name
                      ? g_strdup_printf("Set-up: operation %s", run->operation->name)
                      : g_strdup("Set-up: running parts");
    const char *name = flow->name;
    flow->name = title;
    flow_new_sheet(flow);
    flow_heading(flow, title);
    setting_picture_draw(flow, run->source, table, run->face, &run->fitted, true, PICTURE);
    if (run->operation && run->operation->note)
        flow_paragraph(flow, run->operation->note);
    draw_hardware(flow, run);
    draw_passes(flow, run);
    draw_seating(flow, run);
    draw_first_part(flow, run);
    draw_log(flow, run);
    flow->name = name;
    hole_table_free(table);
    g_free(title);
}

/* --- all of them ---------------------------------------------------------------------------- */

static gint by_order(gconstpointer a, gconstpointer b)
{
    const Record *first = *(const Record *const *)a, *second = *(const Record *const *)b;
    int32_t one = first->operation.order, other = second->operation.order;
    if (one != other)
        return one < other ? -1 : 1;
    return (first->id > second->id) - (first->id < second->id);
}

static void draw_plain(Flow *flow, const DrawingSource *source)
{
    GArray *fitted = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    bool holds = false;
    for (uint32_t i = 0; i < plate_count(source->plate); i++) {
        const Record *record = plate_at(source->plate, i);
        holds = holds || record->kind == RECORD_STATION;
        if (record->kind == RECORD_FITTING)
            g_array_append_val(fitted, record->id);
    }
    Run run = {source, NULL, {fitted->len, fitted->data}, ID_TOP, flow->style};
    if (holds || fitted->len > 0)
        draw_run(flow, &run);
    g_array_unref(fitted);
}

void setup_sheets_draw(Flow *flow, const DrawingSource *source)
{
    GPtrArray *operations = g_ptr_array_new();
    for (uint32_t i = 0; i < plate_count(source->plate); i++) {
        const Record *record = plate_at(source->plate, i);
        if (record->kind == RECORD_OPERATION && record->operation.kind == OPERATION_RUNNING)
            g_ptr_array_add(operations, (void *)record);
    }
    g_ptr_array_sort(operations, by_order);
    for (guint i = 0; i < operations->len; i++) {
        const Operation *operation = &((const Record *)g_ptr_array_index(operations, i))->operation;
        Run run = {source, operation, operation->fitted, operation->face ? operation->face : ID_TOP,
                   flow->style};
        draw_run(flow, &run);
    }
    if (operations->len == 0)
        draw_plain(flow, source);
    g_ptr_array_unref(operations);
}
