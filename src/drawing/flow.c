#include "drawing/flow.h"

#include "drawing/paragraph.h"

#define HEADING 5.0
#define HEADING_GAP 3.0   /* below a heading */
#define BLOCK_GAP 6.0     /* below a table or picture */
#define PARAGRAPH_GAP 2.0 /* below a paragraph */
#define WIDTH_MOST 190.0  /* of a paragraph: what a reader's eye follows */
#define LINES_MOST 30     /* of a paragraph */
#define ROWS_LEAST 3      /* of a table begun at a sheet's foot */
#define BEGINNING_MOST 100.0
#define ABOVE_MOST 30.0    /* what a heading and a lead take above a table */
#define STRETCHED_LEAST 24 /* mm of a column that is broken into lines */

void flow_start(Flow *flow, Drawing *drawing, const DrawingSource *source, SheetSize sheet,
                const char *kind, const char *name, int total)
{
    *flow = (Flow){
        .drawing = drawing, .name = name, .style = figure_style(plate_settings(source->plate))};
    flow->furniture = furniture_of(source, sheet, 1, flow->scale_text);
    flow->furniture.scale = 0;
    flow->furniture.block.scale = NULL;
    flow->furniture.block.kind = kind;
    flow->furniture.block.sheet_count = total;
}

void flow_set_both_units(Flow *flow)
{
    flow->style.both = true;
    flow->furniture.block.unit = furniture_unit(flow->style);
}

void flow_new_sheet(Flow *flow)
{
    flow->furniture.block.sheet = (int)flow->drawing->sheet_count + 1;
    flow->body = furniture_draw(flow->drawing, &flow->furniture, flow->name);
    flow->top = flow->body.y1;
}

double flow_left(const Flow *flow)
{
    return flow->top - flow->body.y0;
}

static Box take(Flow *flow, double height)
{
    Box room = {flow->body.x0, fmax(flow->top - height, flow->body.y0), flow->body.x1, flow->top};
    flow->top = room.y0;
    return room;
}

static double text_width(const Flow *flow)
{
    return fmin(flow->body.x1 - flow->body.x0, WIDTH_MOST);
}

/* The height of a paragraph, and how many lines of it are shown: no more than a sheet has. */
static double paragraph_height(const Flow *flow, const char *text, size_t *shown)
{
    double most =
        (flow->body.y1 - flow->body.y0 - PARAGRAPH_GAP) / (PARAGRAPH_PITCH * SHEET_LETTERING);
    *shown = (size_t)fmax(fmin(most, LINES_MOST), 1);
    size_t lines = paragraph_lines(flow->drawing, text, text_width(flow), SHEET_LETTERING, *shown);
    return (double)lines * PARAGRAPH_PITCH * SHEET_LETTERING + PARAGRAPH_GAP;
}

static void draw_paragraph(Flow *flow, const char *text)
{
    size_t shown;
    Box room = take(flow, paragraph_height(flow, text, &shown));
    drawing_about(flow->drawing, ROLE_NOTE, 0);
    paragraph_draw(flow->drawing, (Point){room.x0, room.y1}, text_width(flow), SHEET_LETTERING,
                   TEXT_START, text, shown);
}

/* Sets what waits to be set above the next `height` mm, on a new sheet where both together have no
 * room; a whole sheet is always room enough. */
static void make_room(Flow *flow, double height)
{
    size_t shown;
    double above = flow->heading ? HEADING + HEADING_GAP : 0;
    if (flow->top <= flow->body.y0)
        flow_new_sheet(flow);
    above += flow->lead ? paragraph_height(flow, flow->lead, &shown) : 0;
    if (flow_left(flow) < above + height && flow->top < flow->body.y1)
        flow_new_sheet(flow);
    if (flow->heading) {
        Box room = take(flow, HEADING + HEADING_GAP);
        drawing_about(flow->drawing, ROLE_NOTE, 0);
        paragraph_draw(flow->drawing, (Point){room.x0, room.y1}, room.x1 - room.x0, HEADING,
                       TEXT_START, flow->heading, 1);
    }
    if (flow->lead)
        draw_paragraph(flow, flow->lead);
    g_clear_pointer(&flow->heading, g_free);
    g_clear_pointer(&flow->lead, g_free);
}

Box flow_room(Flow *flow, double height)
{
    make_room(flow, height);
    return take(flow, height);
}

void flow_gap(Flow *flow, double height)
{
    flow->top -= height;
}

void flow_heading(Flow *flow, const char *text)
{
    g_free(flow->heading);
    flow->heading = g_strdup(text);
}

void flow_lead(Flow *flow, const char *text)
{
    g_free(flow->lead);
    flow->lead = g_strdup(text);
}

void flow_paragraph(Flow *flow, const char *text)
{
    size_t shown;
    if (flow->top <= flow->body.y0)
        flow_new_sheet(flow);
    make_room(flow, paragraph_height(flow, text, &shown));
    draw_paragraph(flow, text);
}

static void fit_width(const Flow *flow, TableText *text, size_t stretched, bool full)
{
    Table table = table_text_table(text, SHEET_LETTERING);
    double left = flow->body.x1 - flow->body.x0 - table_width(flow->drawing, &table);
    if (left >= 0 && !full)
        return;
    double own = table_column_width(flow->drawing, &table, stretched);
    text->columns[stretched].width = fmax(own + left, STRETCHED_LEAST);
}

/* What the first rows of a table take with its heading, as far as that is no more than `most`. */
static double rows_height(const Flow *flow, const Table *table, size_t rows, double most)
{
    double height = 0;
    while (table_fitting(flow->drawing, table, 0, height) < rows && height < most)
        height += SHEET_LETTERING;
    return height;
}

/* The least of a table that is begun at the foot of a sheet: its heading and some rows, or all of
 * it where it is to be kept whole and a sheet has room for that. */
static double beginning(const Flow *flow, const Table *table)
{
    double sheet = flow->body.y1 - flow->body.y0 - ABOVE_MOST;
    double all = flow->whole ? rows_height(flow, table, table->row_count, sheet) : INFINITY;
    if (all < sheet)
        return all;
    return rows_height(flow, table, MIN(ROWS_LEAST, table->row_count), BEGINNING_MOST);
}

void flow_keep_whole(Flow *flow)
{
    flow->whole = true;
}

void flow_table(Flow *flow, TableText *text, size_t stretched, bool full)
{
    if (table_text_rows(text) == 0) {
        flow->whole = false;
        return;
    }
    if (flow->top <= flow->body.y0)
        flow_new_sheet(flow);
    fit_width(flow, text, stretched, full);
    Table table = table_text_table(text, SHEET_LETTERING);
    make_room(flow, beginning(flow, &table));
    flow->whole = false;
    for (size_t first = 0; first < table.row_count;) {
        size_t count = table_fitting(flow->drawing, &table, first, flow_left(flow));
        if (count == 0 && flow->top < flow->body.y1) {
            flow_new_sheet(flow);
            continue;
        }
        count = MAX(count, 1); /* a row taller than a sheet can't be kept back for ever */
        Box box =
            table_draw(flow->drawing, &table, first, count, (Point){flow->body.x0, flow->top});
        flow->top = box.y0 - BLOCK_GAP;
        first += count;
    }
}
