#include "drawing/caution.h"

#include "drawing/paragraph.h"
#include "drawing/sheet.h"

#define PAD 2.0
#define LINES_MOST 20 /* more than the caution ever has */

const char caution_text[] =
    "CAUTION: Check every figure against the stock, the tool and the machine's manual. Prove a "
    "program above the work first. Clamped work can be thrown: wear eye protection. Local rules "
    "and a qualified machinist come before this sheet.";

double caution_height(const Drawing *drawing, double width)
{
    size_t lines =
        paragraph_lines(drawing, caution_text, width - 2 * PAD, SHEET_LETTERING, LINES_MOST);
    return 2 * PAD + SHEET_LETTERING + (double)(lines - 1) * PARAGRAPH_PITCH * SHEET_LETTERING +
           0.3 * SHEET_LETTERING;
}

Box caution_draw(Drawing *drawing, Point corner, double width)
{
    drawing_about(drawing, ROLE_NOTE, 0);
    Box box = {corner.x, corner.y - caution_height(drawing, width), corner.x + width, corner.y};
    drawing_box(drawing, LINE_TABLE, box);
    paragraph_draw(drawing, (Point){corner.x + PAD, corner.y - PAD}, width - 2 * PAD,
                   SHEET_LETTERING, TEXT_START, caution_text, LINES_MOST);
    return box;
}
