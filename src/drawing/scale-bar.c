#include "drawing/scale-bar.h"

#include "drawing/sheet.h"

#include <glib.h>

#define BAR 2.0 /* thickness of the bar, mm */
#define GAP 1.5 /* from the bar to the figures */

/* The greatest of 1, 2, 5, 10, 20 … that is not above `most`. */
static double round_length(double most)
{
    double power = pow(10, floor(log10(most)));
    double share = most / power;
    return (share >= 5 ? 5 : share >= 2 ? 2 : 1) * power;
}

static void fill_box(Drawing *drawing, Box box)
{
    Vertex corners[] = {
        {box.x0, box.y0, 0}, {box.x1, box.y0, 0}, {box.x1, box.y1, 0}, {box.x0, box.y1, 0}};
    drawing_fill(drawing, corners, 4);
}

Box scale_bar_draw(Drawing *drawing, Point corner, double most, double scale, bool inches)
{
    double unit = inches ? 25.4 : 1;
    TextStyle style = {SHEET_LETTERING, TEXT_MIDDLE, TEXT_TOP, 0};
    /* The last figure's half and the unit stand beyond the bar's end. */
    double room = most - 16;
    double length = round_length(room / (unit * scale));
    double step = length * unit * scale / 5;
    double x = corner.x + 2, y = corner.y - BAR;
    drawing_about(drawing, ROLE_FURNITURE, 0);
    drawing_box(drawing, LINE_TABLE, (Box){x, y, x + 5 * step, y + BAR});
    for (int i = 0; i < 5; i += 2)
        fill_box(drawing, (Box){x + i * step, y, x + (i + 1) * step, y + BAR});

    char figure[32];
    Box box = {corner.x, corner.y - SCALE_BAR_HEIGHT, corner.x, corner.y};
    box = box_union(box, drawing_text(drawing, (Point){x, y - GAP}, style, "0"));
    g_ascii_formatd(figure, sizeof figure, "%.6g", length);
    Box last = drawing_text(drawing, (Point){x + 5 * step, y - GAP}, style, figure);
    style.along = TEXT_START;
    last = drawing_text(drawing, (Point){last.x1 + 1.5, y - GAP}, style, inches ? "in" : "mm");
    return box_union(box, last);
}
