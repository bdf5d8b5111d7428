#include "drawing/flow.h"

#include "drawing/paragraph.h"

#define HEADING 5.0
#define HEADING_GAP 3.0    /* below a heading */
#define BLOCK_GAP 6.0      /* below a table or picture */
#define PARAGRAPH_GAP 2.0  /* below a paragraph */
#define WIDTH_MOST 190.0   /* of a paragraph: what a reader's eye follows */
#define LINES_MOST 30      /* of a paragraph */
#define ROWS_LEAST 3       /* of a table begun at a sheet's foot */
#define STRETCHED_LEAST 30 /* mm of a column that is broken into lines */

void flow_start(Flow *flow, Drawing *drawing, const DrawingSource *source, SheetSize sheet,
                const char *kind, const char *name, int total)
{
    *flow = (Flow){.drawing = drawing, .name = name};
    flow->furniture = furniture_of(source, sheet, 1, flow->scale_text);
    flow->furniture.scale = 0;
    flow->furniture.block.scale = NULL;
    flow->furniture.block.kind = kind;
    flow->furniture.block.sheet_count = total;
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

Box flow_room(Flow *flow, double height)
{
    if (flow_left(flow) < height)
        flow_new_sheet(flow);
    Box room = {flow->body.x0, fmax(flow->top - height, flow->body.y0), flow->body.x1, flow->top};
    flow->top = room.y0;
    return room;
}

void flow_gap(Flow *flow, double height)
{
    flow->top -= height;
}

void flow_heading(Flow *flow, const char *text, double after)
{
    if (flow_left(flow) < HEADING + HEADING_GAP + after)
        flow_new_sheet(flow);
    Box room = flow_room(flow, HEADING + HEADING_GAP);
    drawing_about(flow->drawing, ROLE_NOTE, 0);
    paragraph_draw(flow->drawing, (Point){room.x0, room.y1}, room.x1 - room.x0, HEADING, TEXT_START,
                   text, 1);
}

void flow_paragraph(Flow *flow, const char *text)
{
    if (flow_left(flow) <= 0)
        flow_new_sheet(flow);
    double width = fmin(flow->body.x1 - flow->body.x0, WIDTH_MOST);
    /* No longer than a sheet. */
    double most =
        (flow->body.y1 - flow->body.y0 - PARAGRAPH_GAP) / (PARAGRAPH_PITCH * SHEET_LETTERING);
    size_t shown = (size_t)fmax(fmin(most, LINES_MOST), 1);
    size_t lines = paragraph_lines(flow->drawing, text, width, SHEET_LETTERING, shown);
    Box room = flow_room(flow, (double)lines * PARAGRAPH_PITCH * SHEET_LETTERING + PARAGRAPH_GAP);
    drawing_about(flow->drawing, ROLE_NOTE, 0);
    paragraph_draw(flow->drawing, (Point){room.x0, room.y1}, width, SHEET_LETTERING, TEXT_START,
                   text, shown);
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

void flow_table(Flow *flow, TableText *text, size_t stretched, bool full)
{
    if (table_text_rows(text) == 0)
        return;
    if (flow_left(flow) <= 0)
        flow_new_sheet(flow);
    fit_width(flow, text, stretched, full);
    Table table = table_text_table(text, SHEET_LETTERING);
    for (size_t first = 0; first < table.row_count;) {
        size_t count = table_fitting(flow->drawing, &table, first, flow_left(flow));
        size_t least = MIN(ROWS_LEAST, table.row_count - first);
        if (count < least && flow->top < flow->body.y1) {
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
