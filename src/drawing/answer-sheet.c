#include "drawing/answer-sheet.h"

#include "checks/sentence.h"
#include "drawing/answer-picture.h"
#include "drawing/flow.h"
#include "drawing/hole-table.h"
#include "refit/refit-change.h"
#include "refit/refit-text.h"

#include <string.h>

#define ROWS_ENOUGH 4      /* findings listed, before a larger sheet is tried */
#define PICTURE_LEAST 85.0 /* mm of an upright sheet's height */
#define COLUMNS_APART 8.0

typedef struct Page {
    Drawing *drawing;
    DrawingSource source; /* the plate as it is */
    DrawingSource shown;  /* with the answer on it */
    Refit *refit;
    const RefitAnswer *answer;
    uint32_t number; /* of the answer, from 0 */
    FigureStyle style;
    Unit unit;
} Page;

static Page page_of(Drawing *drawing, const DrawingSource *source, Refit *refit, uint32_t i)
{
    const Settings *settings = plate_settings(source->plate);
    Page page = {.drawing = drawing,
                 .source = *source,
                 .refit = refit,
                 .answer = refit_at(refit, i),
                 .number = i,
                 .style = figure_style(settings),
                 .unit = settings->unit == PLATE_INCH ? UNIT_INCH : UNIT_MM};
    page.shown = (DrawingSource){source->plate, refit_show(refit, i)};
    return page;
}

/* --- words ---------------------------------------------------------------------------------- */

static const char *part_name(const Page *page)
{
    const Part *part = refit_part(page->refit);
    return part->name && *part->name ? part->name : "The part";
}

static void draw_heading(const Page *page, Flow *flow)
{
    char verdict[VERDICT_TEXT];
    refit_verdict_text(page->answer, verdict);
    char *text = g_strdup_printf("%s on this plate: %s", part_name(page), verdict);
    flow_heading(flow, text);
    g_free(text);
}

/* Without the end that only a full stop is missing from. */
static void take_sentence(Flow *flow, char *text)
{
    char *sentence = g_strconcat(text, ".", NULL);
    flow_paragraph(flow, sentence);
    g_free(sentence);
    g_free(text);
}

static void draw_place(const Page *page, Flow *flow)
{
    char *place = refit_place_text(page->refit, page->number, page->unit);
    take_sentence(flow, g_strdup_printf("Answer %u of %u, the best first: the part's origin %s",
                                        page->number + 1, refit_count(page->refit), place));
    g_free(place);
}

static void draw_alike(const Page *page, Flow *flow)
{
    char *alike = refit_alike_text(page->refit, page->number, page->unit);
    if (alike)
        take_sentence(flow, g_strdup_printf("The same at X and Y of %s", alike));
    g_free(alike);
}

static void draw_reason(const Page *page, Flow *flow)
{
    char reason[SENTENCE_TEXT];
    refit_reason(page->refit, page->number, page->unit, reason);
    if (page->answer->verdict == REFIT_NO)
        take_sentence(flow, g_strdup_printf("The first reason why not: %s", reason));
    else if (page->answer->cautions > 0)
        take_sentence(flow, g_strdup_printf("To be looked at first: %s", reason));
}

static void draw_key(const Page *page, Flow *flow, double scale)
{
    char text[FURNITURE_SCALE_TEXT];
    furniture_scale_text(scale, text);
    take_sentence(flow,
                  g_strdup_printf("Picture: scale %s. Unbroken: the new part%s", text,
                                  page->answer->displaced->len > 0 || refit_replaced(page->refit)
                                      ? ". Dashes: what makes room for it"
                                      : ""));
}

/* --- holes ---------------------------------------------------------------------------------- */

static char *hole_words(const Page *page, const RefitUse *use, const Record *hole)
{
    char off[FIGURE_TEXT], play[FIGURE_TEXT];
    if (use->hole == ID_NONE) {
        char *description = hole_description(&hole->hole, page->style);
        char *words = g_strconcat("MAKE ", description, NULL);
        g_free(description);
        return words;
    }
    figure_length(page->style, length_from_mm(use->deviation), off);
    figure_length(page->style, length_from_mm(use->play), play);
    return g_strdup_printf("is there, off by %s of %s that it may", off, play);
}

static void add_hole(const Page *page, TableText *text, guint i)
{
    const RefitUse *use = &g_array_index(page->answer->uses, RefitUse, i);
    const PartHole *own = LIST_AT(&refit_part(page->refit)->holes, PartHole, use->part_hole - 1);
    const Record *hole =
        placed_record(page->shown.placed, refit_use_hole(page->refit, page->answer, i));
    Place datum = face_view(&page->source, page->answer->face).datum;
    Point at = refit_use_at(page->refit, page->answer, use);
    char figure[FIGURE_TEXT];
    if (own->name && *own->name)
        table_text_add(text, own->name);
    else
        table_text_take(text, g_strdup_printf("hole %d", use->part_hole));
    table_text_add(text, hole ? record_label(hole) : NULL);
    table_text_add(text, figure_length(page->style, length_from_mm(at.x) - datum.x, figure));
    table_text_add(text, figure_length(page->style, length_from_mm(at.y) - datum.y, figure));
    table_text_take(text, hole ? hole_words(page, use, hole) : NULL);
    table_text_add(text, use->hardware.size);
}

static void draw_holes(const Page *page, Flow *flow)
{
    static const TableColumn columns[] = {{"Part's hole", TEXT_START, 0, 30, false},
                                          {"Plate's", TEXT_START, 0, 0, false},
                                          {"X", TEXT_END, 0, 0, false},
                                          {"Y", TEXT_END, 0, 0, false},
                                          {"What", TEXT_START, 0, 0, false},
                                          {"Goes in", TEXT_START, 0, 38, false}};
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (guint i = 0; i < page->answer->uses->len; i++)
        add_hole(page, &text, i);
    if (table_text_rows(&text) > 0)
        flow_heading(flow, "Holes that the part lies on");
    flow_table(flow, &text, 4, true);
    table_text_end(&text);
}

/* --- findings ------------------------------------------------------------------------------- */

static void add_finding(const Page *page, TableText *text, uint32_t i)
{
    char message[SENTENCE_TEXT], remedy[SENTENCE_TEXT];
    const Finding *finding = &page->answer->findings.items[i];
    finding_message(finding, page->shown.placed, page->unit, message);
    finding_remedy(finding, page->shown.placed, page->unit, remedy);
    table_text_take(text, g_strdup_printf("(%u)", i + 1));
    table_text_add(text, finding_level_name(finding->level));
    table_text_take(text, g_strdup_printf("%s.%s%s%s", message, *remedy ? " " : "", remedy,
                                          *remedy ? "." : ""));
}

static void draw_findings(const Page *page, Flow *flow, uint32_t rows)
{
    static const TableColumn columns[] = {
        {"No", TEXT_START, 0, 0, false},
        {"Level", TEXT_START, 0, 0, false},
        {"What, and what would mend it", TEXT_START, 0, 0, false}};
    uint32_t count = page->answer->findings.count;
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; i < MIN(rows, count); i++)
        add_finding(page, &text, i);
    flow_heading(flow, "What the checks find new");
    if (count == 0)
        flow_paragraph(flow, "Nothing.");
    else if (rows == 0)
        take_sentence(flow,
                      g_strdup_printf("%u findings, for which this sheet has no room", count));
    flow_table(flow, &text, 2, true);
    if (rows > 0 && rows < count)
        take_sentence(flow, g_strdup_printf("%u more findings have no room here", count - rows));
    table_text_end(&text);
}

/* --- before and after ----------------------------------------------------------------------- */

static void add_side(const Page *page, TableText *text, const Finding *finding,
                     const Placed *placed)
{
    char message[SENTENCE_TEXT];
    if (!finding) {
        table_text_add(text, NULL);
        return;
    }
    finding_message(finding, placed, page->unit, message);
    table_text_take(text, g_strdup_printf("%s: %s", finding_level_name(finding->level), message));
}

/* In place of the findings where a part is replaced. */
static void draw_changes(const Page *page, Flow *flow, uint32_t rows)
{
    static const TableColumn columns[] = {{"Before", TEXT_START, 0, 74, false},
                                          {"After", TEXT_START, 0, 0, false}};
    FindingList before = FINDING_LIST_EMPTY;
    TableText text;
    refit_before(page->refit, page->answer, &before);
    GArray *changes = refit_changes(&before, page->answer);
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (guint i = 0; i < MIN(rows, changes->len); i++) {
        const RefitChange *change = &g_array_index(changes, RefitChange, i);
        add_side(page, &text, change->before, page->source.placed);
        add_side(page, &text, change->after, page->shown.placed);
    }
    flow_heading(flow, "What the checks find of the station");
    if (changes->len == 0)
        flow_paragraph(flow, "Nothing, before and after.");
    flow_table(flow, &text, 1, true);
    if (rows < changes->len)
        take_sentence(flow,
                      g_strdup_printf("%u more findings have no room here", changes->len - rows));
    table_text_end(&text);
    g_array_unref(changes);
    finding_list_clear(&before);
}

/* --- the sheet ------------------------------------------------------------------------------ */

/* Sheets that lie have the words on the left and the picture on the right, others the picture
 * between the words. */
static bool is_lying(SheetSize sheet)
{
    return sheet_format(sheet)->width > sheet_format(sheet)->height;
}

static Box start_page(const Page *page, Flow *flow, SheetSize sheet)
{
    drawing_clear(page->drawing);
    flow_start(flow, page->drawing, &page->source, sheet, "Refit", "Refit", 1);
    flow_new_sheet(flow);
    Box right = flow->body;
    double middle = (right.x0 + right.x1) / 2;
    if (is_lying(sheet)) {
        flow->body.x1 = middle - COLUMNS_APART / 2;
        right.x0 = middle + COLUMNS_APART / 2;
    }
    return right;
}

/* Draws the page with a picture `height` mm high, or without one for 0. Returns how much of the
 * sheet is left; negative when one does not do. */
static double draw_page(const Page *page, SheetSize sheet, double height, uint32_t rows)
{
    Flow flow;
    Box room = start_page(page, &flow, sheet);
    draw_heading(page, &flow);
    draw_place(page, &flow);
    draw_alike(page, &flow);
    draw_reason(page, &flow);
    if (height > 0 && !is_lying(sheet))
        room = flow_room(&flow, height);
    uint32_t numbered = refit_replaced(page->refit) ? 0 : MIN(rows, page->answer->findings.count);
    double scale = answer_picture_draw(page->drawing, &page->source, page->refit, page->number,
                                       numbered, room);
    draw_key(page, &flow, scale);
    draw_holes(page, &flow);
    if (refit_replaced(page->refit))
        draw_changes(page, &flow, rows);
    else
        draw_findings(page, &flow, rows);
    return page->drawing->sheet_count == 1 ? flow_left(&flow) : -1;
}

/* Of the table of findings, or of the one of before and after, when all of it is shown. */
static uint32_t row_count(const Page *page)
{
    FindingList before = FINDING_LIST_EMPTY;
    if (refit_replaced(page->refit))
        refit_before(page->refit, page->answer, &before);
    uint32_t count = page->answer->findings.count + before.count;
    finding_list_clear(&before);
    return count;
}

/* The most rows of findings that leave `least_left` mm; UINT32_MAX when not even `least` do. */
static uint32_t fitting_rows(const Page *page, SheetSize sheet, double least_left, uint32_t least)
{
    uint32_t most = row_count(page), fits = least;
    if (draw_page(page, sheet, 0, most) >= least_left)
        return most;
    if (draw_page(page, sheet, 0, least) < least_left)
        return UINT32_MAX;
    while (most - fits > 1) {
        uint32_t middle = fits + (most - fits) / 2;
        if (draw_page(page, sheet, 0, middle) >= least_left)
            fits = middle;
        else
            most = middle;
    }
    return fits;
}

static bool fit_sheet(const Page *page, SheetSize sheet, uint32_t least)
{
    uint32_t rows = fitting_rows(page, sheet, is_lying(sheet) ? 0 : PICTURE_LEAST, least);
    if (rows == UINT32_MAX)
        return false;
    double left = draw_page(page, sheet, 0, rows);
    return draw_page(page, sheet, left, rows) >= 0;
}

bool answer_sheet_build(Drawing *drawing, const DrawingSource *source, Refit *refit, uint32_t i,
                        const ViewSpec *spec, Error *error)
{
    static const SheetSize iso[] = {SHEET_A4, SHEET_A3, SHEET_A2};
    static const SheetSize asme[] = {SHEET_LETTER, SHEET_B, SHEET_C};
    Page page = page_of(drawing, source, refit, i);
    uint32_t enough = MIN(ROWS_ENOUGH, row_count(&page));
    bool done = false;
    for (size_t s = 0; s < G_N_ELEMENTS(iso) && !done && !spec->choose_sheet; s++)
        done =
            fit_sheet(&page, page.style.standard == SHEET_STANDARD_ASME ? asme[s] : iso[s], enough);
    if (spec->choose_sheet)
        done = fit_sheet(&page, spec->sheet, 0);
    g_snprintf(drawing->title, sizeof drawing->title, "%s: refit", part_name(&page));
    return done || error_set(error, ERROR_LIMIT, NULL,
                             "the answer does not fit on one sheet; choose a larger one");
}
