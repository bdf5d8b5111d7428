#include "drawing/table.h"

#include "drawing/paragraph.h"
#include "drawing/tolerance-frame.h"

#include <glib.h>

#define RULED_EVERY 5
#define LINES_MOST 5 /* in one cell */
#define PAD 2.0      /* beside a cell's text, mm */
#define FRAME_PAD 1  /* above and below a tolerance frame */

typedef struct Widths {
    double of[TABLE_COLUMNS_MOST];
    double whole;
} Widths;

static const char *cell_text(const Table *table, size_t row, size_t column)
{
    const char *text = table->cells[row * table->column_count + column];
    return text ? text : "";
}

/* Of what stands in a cell, mm. */
static double cell_width(const Drawing *drawing, const Table *table, size_t row, size_t column)
{
    const char *text = cell_text(table, row, column);
    if (table->columns[column].frames)
        return *text ? tolerance_frame_width(drawing, text, table->height) : 0;
    return paragraph_width(drawing, text, table->height);
}

double table_column_width(const Drawing *drawing, const Table *table, size_t column)
{
    if (table->columns[column].width > 0)
        return table->columns[column].width;
    double widest = paragraph_width(drawing, table->columns[column].heading, table->height);
    for (size_t r = 0; r < table->row_count; r++)
        widest = fmax(widest, cell_width(drawing, table, r, column));
    double most = table->columns[column].most;
    return (most > 0 ? fmin(widest, most) : widest) + 2 * PAD;
}

static Widths find_widths(const Drawing *drawing, const Table *table)
{
    Widths widths = {{0}, 0};
    for (size_t c = 0; c < table->shown_count; c++) {
        widths.of[c] = table_column_width(drawing, table, c);
        widths.whole += widths.of[c];
    }
    return widths;
}

static double lines_height(const Table *table, size_t lines)
{
    return (double)lines * PARAGRAPH_PITCH * table->height;
}

static double row_height(const Drawing *drawing, const Table *table, const Widths *widths,
                         size_t row)
{
    size_t lines = 1;
    double frame = 0;
    for (size_t c = 0; c < table->shown_count; c++) {
        const char *text = cell_text(table, row, c);
        if (!table->columns[c].frames)
            lines = MAX(lines, paragraph_lines(drawing, text, widths->of[c] - 2 * PAD,
                                               table->height, LINES_MOST));
        else if (*text)
            frame = tolerance_frame_height(table->height) + 2 * FRAME_PAD;
    }
    return fmax(lines_height(table, lines), frame);
}

static double heading_height(const Drawing *drawing, const Table *table, const Widths *widths)
{
    size_t lines = 1;
    for (size_t c = 0; c < table->shown_count; c++)
        lines = MAX(lines, paragraph_lines(drawing, table->columns[c].heading,
                                           widths->of[c] - 2 * PAD, table->height, LINES_MOST));
    /* A little more air than a row has. */
    return lines_height(table, lines) + 0.5 * table->height;
}

double table_width(const Drawing *drawing, const Table *table)
{
    return find_widths(drawing, table).whole;
}

size_t table_fitting(const Drawing *drawing, const Table *table, size_t first, double height)
{
    Widths widths = find_widths(drawing, table);
    double used = heading_height(drawing, table, &widths);
    size_t r = first;
    while (r < table->row_count) {
        used += row_height(drawing, table, &widths, r);
        if (used > height)
            break;
        r++;
    }
    return r - first;
}

/* The texts of a heading or row, their line's capitals in the middle of its pitch. */
static void draw_cells(Drawing *drawing, const Table *table, const Widths *widths, size_t row,
                       bool heading, Point corner)
{
    double drop = (PARAGRAPH_PITCH - 1) / 2 * table->height;
    double x = corner.x;
    for (size_t c = 0; c < table->shown_count; c++) {
        const char *text = heading ? table->columns[c].heading : cell_text(table, row, c);
        Point at = {x + PAD, corner.y - drop};
        if (heading || !table->columns[c].frames)
            paragraph_draw(drawing, at, widths->of[c] - 2 * PAD, table->height,
                           table->columns[c].along, text, LINES_MOST);
        else if (*text)
            tolerance_frame_draw(drawing, (Point){at.x, corner.y - FRAME_PAD}, text, table->height);
        x += widths->of[c];
    }
}

static void draw_rules(Drawing *drawing, const Widths *widths, size_t columns, Box box)
{
    drawing_about(drawing, ROLE_TABLE, 0);
    double x = box.x0;
    for (size_t c = 0; c + 1 < columns; c++) {
        x += widths->of[c];
        drawing_line(drawing, LINE_TABLE, (Point){x, box.y0}, (Point){x, box.y1});
    }
    drawing_box(drawing, LINE_SIGN, box);
}

Box table_draw(Drawing *drawing, const Table *table, size_t first, size_t count, Point corner)
{
    Widths widths = find_widths(drawing, table);
    double right = corner.x + widths.whole;
    drawing_about(drawing, ROLE_TABLE, 0);
    double y = corner.y;
    draw_cells(drawing, table, &widths, 0, true, (Point){corner.x, y - 0.25 * table->height});
    y -= heading_height(drawing, table, &widths);
    drawing_line(drawing, LINE_SIGN, (Point){corner.x, y}, (Point){right, y});
    for (size_t r = first; r < first + count; r++) {
        drawing_about(drawing, ROLE_TABLE, table->features ? table->features[r] : 0);
        draw_cells(drawing, table, &widths, r, false, (Point){corner.x, y});
        y -= row_height(drawing, table, &widths, r);
        if ((r + 1 - first) % RULED_EVERY == 0 && r + 1 < first + count) {
            drawing_about(drawing, ROLE_TABLE, 0);
            drawing_line(drawing, LINE_TABLE, (Point){corner.x, y}, (Point){right, y});
        }
    }
    Box box = {corner.x, y, right, corner.y};
    draw_rules(drawing, &widths, table->shown_count, box);
    return box;
}
