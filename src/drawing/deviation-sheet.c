#include "drawing/deviation-sheet.h"

#include "drawing/deviation-picture.h"
#include "drawing/figure.h"
#include "drawing/flow.h"
#include "drawing/sign.h"

#define PICTURE 120.0 /* mm of the first sheet */

typedef struct Page {
    Drawing *drawing;
    const DrawingSource *source;
    const Deviations *deviations;
    FigureStyle style;
    SheetSize sheet;
} Page;

static const char *label_of(const Page *page, FeatureId hole)
{
    const Record *record = placed_record(page->source->placed, hole);
    const char *label = record ? record_label(record) : NULL;
    return label ? label : "?";
}

static const MeasuredRow *row_at(const Page *page, guint i)
{
    return &g_array_index(page->deviations->measured->rows, MeasuredRow, i);
}

static void take_paragraph(Flow *flow, char *text)
{
    flow_paragraph(flow, text);
    g_free(text);
}

/* --- words ---------------------------------------------------------------------------------- */

static char *point_name(const Page *page, const MeasuredRow *row)
{
    const MeasuredPoint *point =
        &g_array_index(page->deviations->table->points, MeasuredPoint, row->point);
    return point->label ? g_strdup(point->label) : g_strdup_printf("line %ld", point->line);
}

static bool is_out(const MeasuredRow *row)
{
    return row->hole && fmin(row->squares_used, row->greatest_used) > 1;
}

typedef bool (*RowTest)(const MeasuredRow *row);

static bool is_outlier(const MeasuredRow *row)
{
    return row->outlier;
}

static bool has_no_hole(const MeasuredRow *row)
{
    return row->hole == ID_NONE;
}

/* "Outliers, left out of the fits: E2, B3." Nothing where there are none. */
static void name_rows(const Page *page, Flow *flow, const char *what, RowTest test)
{
    GString *text = g_string_new(NULL);
    for (guint i = 0; i < page->deviations->measured->rows->len; i++) {
        const MeasuredRow *row = row_at(page, i);
        if (!test(row))
            continue;
        char *point = row->hole ? NULL : point_name(page, row);
        g_string_append_printf(text, "%s%s", text->len ? ", " : "",
                               point ? point : label_of(page, row->hole));
        g_free(point);
    }
    if (text->len > 0)
        take_paragraph(flow, g_strdup_printf("%s: %s.", what, text->str));
    g_string_free(text, TRUE);
}

static void name_missing(const Page *page, Flow *flow)
{
    const GArray *missing = page->deviations->measured->missing;
    GString *text = g_string_new(NULL);
    for (guint i = 0; i < missing->len; i++)
        g_string_append_printf(text, "%s%s", i ? ", " : "",
                               label_of(page, g_array_index(missing, FeatureId, i)));
    if (missing->len > 0)
        take_paragraph(flow, g_strdup_printf("Not measured: %s.", text->str));
    g_string_free(text, TRUE);
}

static void draw_fits(const Page *page, Flow *flow)
{
    const Measured *measured = page->deviations->measured;
    const double deviations[4] = {measured->squares.rms, measured->squares.greatest,
                                  measured->greatest.rms, measured->greatest.greatest};
    char figures[4][FIGURE_TEXT];
    for (int i = 0; i < 4; i++)
        figure_length(page->style, length_from_mm(deviations[i]), figures[i]);
    take_paragraph(flow, g_strdup_printf("Root mean square and greatest deviation: by least "
                                         "squares %s and %s, by least greatest deviation %s and "
                                         "%s.",
                                         figures[0], figures[1], figures[2], figures[3]));
}

static void draw_words(const Page *page, Flow *flow)
{
    const Measured *measured = page->deviations->measured;
    take_paragraph(flow, g_strdup_printf("%u of %u points are holes of the plate; %u of them out "
                                         "of their position tolerance.",
                                         measured->matched, measured->rows->len,
                                         measured->out_of_tolerance));
    name_rows(page, flow, "Out of tolerance", is_out);
    name_rows(page, flow, "Outliers, left out of the fits", is_outlier);
    name_rows(page, flow, "Points where the plate has no hole", has_no_hole);
    name_missing(page, flow);
    draw_fits(page, flow);
}

static void draw_key(const Page *page, Flow *flow, double scale)
{
    char text[FURNITURE_SCALE_TEXT];
    furniture_scale_text(scale, text);
    take_paragraph(
        flow, g_strdup_printf("Picture: plate %s, arrows %.0f times their size, by least "
                              "squares, from where a hole is drawn to where it is. Circles: "
                              "the zones of tolerance, as enlarged. Dashed arrows are cut off.",
                              text, deviation_picture_times(page->deviations)));
}

/* --- the table ------------------------------------------------------------------------------ */

static void take_figure(const Page *page, TableText *text, double mm)
{
    char figure[FIGURE_TEXT];
    table_text_add(text, figure_length(page->style, length_from_mm(mm), figure));
}

static char *remark(const MeasuredRow *row)
{
    return g_strdup_printf("%s%s%s", is_out(row) ? "OUT" : "",
                           row->outlier ? (is_out(row) ? ", outlier" : "outlier") : "",
                           row->label_differs ? ", other label" : "");
}

static void add_row(const Page *page, TableText *text, const MeasuredRow *row)
{
    Place datum = face_view(page->source, page->deviations->face).datum;
    if (row->hole == ID_NONE) {
        table_text_take(text, point_name(page, row));
        for (int i = 0; i < 7; i++)
            table_text_add(text, NULL);
        table_text_add(text, "no hole here");
        return;
    }
    table_text_add(text, label_of(page, row->hole));
    take_figure(page, text, row->drawn.x - length_to_mm(datum.x));
    take_figure(page, text, row->drawn.y - length_to_mm(datum.y));
    take_figure(page, text, row->squares.x);
    take_figure(page, text, row->squares.y);
    take_figure(page, text, row->tolerance);
    table_text_take(
        text, g_strdup_printf("%.0f / %.0f", 100 * row->squares_used, 100 * row->greatest_used));
    if (isnan(row->diameter_off))
        table_text_add(text, NULL);
    else
        take_figure(page, text, row->diameter_off);
    table_text_take(text, remark(row));
}

static void draw_table(const Page *page, Flow *flow)
{
    static const TableColumn columns[] = {
        {"Hole", TEXT_START, 0, 24, false},    {"X", TEXT_END, 0, 0, false},
        {"Y", TEXT_END, 0, 0, false},          {"Off X", TEXT_END, 0, 0, false},
        {"Off Y", TEXT_END, 0, 0, false},      {SIGN_DIAMETER " zone", TEXT_END, 0, 0, false},
        {"Used, %", TEXT_MIDDLE, 0, 0, false}, {SIGN_DIAMETER " off", TEXT_END, 0, 0, false},
        {"", TEXT_START, 0, 0, false}};
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (guint i = 0; i < page->deviations->measured->rows->len; i++)
        add_row(page, &text, row_at(page, i));
    flow_heading(flow, "Deviations: measured less drawn");
    flow_lead(flow, "Used: the share of the position tolerance, by least squares / by least "
                    "greatest deviation. A hole is within tolerance when one of the two is.");
    flow_table(flow, &text, 8, true);
    table_text_end(&text);
}

/* --- the sheets ----------------------------------------------------------------------------- */

/* With `total` 0 only to count them. */
static void draw_all(const Page *page, int total)
{
    Flow flow;
    drawing_clear(page->drawing);
    flow_start(&flow, page->drawing, page->source, page->sheet, "Measured", "Measured", total);
    flow_heading(&flow, "The plate as measured, against the plate as drawn");
    Box room = flow_room(&flow, PICTURE);
    double scale = deviation_picture_draw(page->drawing, page->source, page->deviations, room);
    draw_key(page, &flow, scale);
    draw_words(page, &flow);
    draw_table(page, &flow);
}

bool deviation_sheet_build(Drawing *drawing, const DrawingSource *source,
                           const Deviations *deviations, const ViewSpec *spec, Error *error)
{
    const Settings *settings = plate_settings(source->plate);
    Page page = {drawing, source, deviations, figure_style(settings), spec->sheet};
    if (!placed_frame(source->placed, deviations->face))
        return error_set(error, ERROR_MISSING, NULL, "the plate has no face with that number");
    if (!spec->choose_sheet)
        page.sheet = settings->standard == SHEET_STANDARD_ASME ? SHEET_LETTER : SHEET_A4;
    draw_all(&page, 0);
    draw_all(&page, (int)drawing->sheet_count);
    g_snprintf(drawing->title, sizeof drawing->title, "%s: measured",
               settings->name ? settings->name : "Fixture plate");
    return true;
}
