#include "drawing/title-block.h"

#include "drawing/paragraph.h"
#include "drawing/projection-sign.h"
#include "drawing/sheet.h"

#include <glib.h>

#define LINES_MOST 2 /* of a value */
#define CAPTION SHEET_LETTERING
#define PAD 1.5         /* from a rule to a text */
#define CAPTION_GAP 2.2 /* from a caption's baseline to the value's top */
#define BELOW 0.45      /* from a value's baseline to the rule, in its heights */
#define SIGN_SIZE 7.0

typedef struct Cell {
    const char *caption, *value;
    double width;  /* mm */
    double height; /* of the value's capitals */
} Cell;

typedef struct Row {
    Cell cells[6];
    size_t count;
} Row;

#define ROW_COUNT 4

/* The rows from the top, each `width` wide. The last cell of the last row holds the
 * projection sign. `sheet` is the text "1 of 3". */
static void fill_rows(const TitleBlock *block, const char *sheet, double width, Row rows[ROW_COUNT])
{
    const double small = SHEET_LETTERING, large = 5;
    rows[0] = (Row){{{"Owner", block->owner, 72, small}, {"Title", block->title, 108, large}}, 2};
    rows[1] = (Row){{{"Drawn", block->creator, 36, small},
                     {"Approved", block->approver, 36, small},
                     {"Document", block->kind, 62, small},
                     {"Number", block->number, 46, small}},
                    4};
    rows[2] = (Row){{{"Material", block->material, 72, small},
                     {"General tolerances", block->tolerance, 62, small},
                     {"Date", block->date, 46, small}},
                    3};
    rows[3] = (Row){{{"Scale", block->scale, 36, small},
                     {"Unit", block->unit, 36, small},
                     {"Revision", block->revision, 31, small},
                     {"Sheet", sheet, 31, small},
                     {"", "", 46, small}},
                    5};
    for (size_t i = 0; i < ROW_COUNT; i++) {
        for (size_t c = 0; c < rows[i].count; c++)
            rows[i].cells[c].width *= width / TITLE_BLOCK_WIDTH;
    }
}

static double cell_height(const Drawing *drawing, const Cell *cell)
{
    size_t lines = 1;
    if (cell->value)
        lines =
            paragraph_lines(drawing, cell->value, cell->width - 2 * PAD, cell->height, LINES_MOST);
    return PAD + CAPTION + CAPTION_GAP + cell->height +
           (double)(lines - 1) * PARAGRAPH_PITCH * cell->height + fmax(PAD, BELOW * cell->height);
}

static double row_height(const Drawing *drawing, const Row *row)
{
    double height = 0;
    for (size_t i = 0; i < row->count; i++)
        height = fmax(height, cell_height(drawing, &row->cells[i]));
    return height;
}

static void write_sheet(const TitleBlock *block, char *text, size_t size)
{
    g_snprintf(text, size, "%d of %d", block->sheet, block->sheet_count);
}

double title_block_height(const Drawing *drawing, const TitleBlock *block, double width)
{
    char sheet[32];
    write_sheet(block, sheet, sizeof sheet);
    Row rows[ROW_COUNT];
    fill_rows(block, sheet, width, rows);
    double height = 0;
    for (size_t i = 0; i < ROW_COUNT; i++)
        height += row_height(drawing, &rows[i]);
    return height;
}

static void draw_row(Drawing *drawing, const Row *row, Box box)
{
    double x = box.x0;
    for (size_t i = 0; i < row->count; i++) {
        const Cell *cell = &row->cells[i];
        if (i > 0)
            drawing_line(drawing, LINE_TABLE, (Point){x, box.y0}, (Point){x, box.y1});
        drawing_text(drawing, (Point){x + PAD, box.y1 - PAD},
                     (TextStyle){CAPTION, TEXT_START, TEXT_TOP, 0}, cell->caption);
        Point value = {x + PAD, box.y1 - PAD - CAPTION - CAPTION_GAP};
        if (cell->value)
            paragraph_draw(drawing, value, cell->width - 2 * PAD, cell->height, TEXT_START,
                           cell->value, LINES_MOST);
        x += cell->width;
    }
}

Box title_block_draw(Drawing *drawing, const TitleBlock *block, Point corner, double width)
{
    char sheet[32];
    write_sheet(block, sheet, sizeof sheet);
    Row rows[ROW_COUNT];
    fill_rows(block, sheet, width, rows);
    drawing_about(drawing, ROLE_FURNITURE, 0);
    Box whole = {corner.x - width, corner.y, corner.x,
                 corner.y + title_block_height(drawing, block, width)};
    drawing_box(drawing, LINE_SIGN, whole);
    double top = whole.y1;
    for (size_t i = 0; i < ROW_COUNT; i++) {
        double bottom = top - row_height(drawing, &rows[i]);
        if (i > 0)
            drawing_line(drawing, LINE_TABLE, (Point){whole.x0, top}, (Point){whole.x1, top});
        draw_row(drawing, &rows[i], (Box){whole.x0, bottom, whole.x1, top});
        top = bottom;
    }
    const Row *last = &rows[ROW_COUNT - 1];
    double sign_middle = whole.x1 - last->cells[last->count - 1].width / 2;
    projection_sign_draw(drawing, (Point){sign_middle, whole.y0 + row_height(drawing, last) / 2},
                         SIGN_SIZE, block->first_angle);
    return whole;
}
