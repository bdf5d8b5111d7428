#include "drawing/sheet.h"

#include <glib.h>
#include <string.h>

#define INCH 25.4
#define ZONE_LENGTH 50.0     /* ISO 5457 */
#define ZONE_BORDER 5.0      /* outside the frame */
#define CENTRING_INWARDS 5.0 /* how far centring marks reach into the frame */

static const SheetFormat formats[SHEET_SIZE_COUNT] = {
    [SHEET_A4] = {"A4", 210, 297, 20, 10, 10, 10, 0, 0, false},
    [SHEET_A3] = {"A3", 420, 297, 20, 10, 10, 10, 8, 6, false},
    [SHEET_A2] = {"A2", 594, 420, 20, 10, 10, 10, 12, 8, false},
    [SHEET_A1] = {"A1", 841, 594, 20, 10, 10, 10, 16, 12, false},
    [SHEET_LETTER] = {"Letter", 8.5 * INCH, 11 * INCH, 0.38 * INCH, 0.38 * INCH, 0.38 * INCH,
                      0.38 * INCH, 0, 0, true},
    [SHEET_B] = {"B", 17 * INCH, 11 * INCH, 0.62 * INCH, 0.62 * INCH, 0.38 * INCH, 0.38 * INCH, 4,
                 2, true},
    [SHEET_C] = {"C", 22 * INCH, 17 * INCH, 0.5 * INCH, 0.5 * INCH, 0.75 * INCH, 0.75 * INCH, 4, 4,
                 true},
    [SHEET_D] = {"D", 34 * INCH, 22 * INCH, 1 * INCH, 1 * INCH, 0.5 * INCH, 0.5 * INCH, 8, 4, true},
};

const SheetFormat *sheet_format(SheetSize size)
{
    return &formats[size];
}

bool sheet_size_read(const char *text, SheetSize *size, Error *error)
{
    for (int i = 0; i < SHEET_SIZE_COUNT; i++) {
        if (g_ascii_strcasecmp(text, formats[i].name) == 0) {
            *size = (SheetSize)i;
            return true;
        }
    }
    return error_set(error, ERROR_TYPED, NULL,
                     "\"%.40s\" is no sheet; use A4, A3, A2, A1, Letter, B, C or D", text);
}

Box sheet_frame(SheetSize size)
{
    const SheetFormat *f = &formats[size];
    return (Box){f->left, f->bottom, f->width - f->right, f->height - f->top};
}

static void draw_centring(Drawing *drawing, const SheetFormat *f, Box frame)
{
    double x = f->width / 2, y = f->height / 2;
    double out = fmin(ZONE_BORDER, fmin(f->top, f->right));
    /* On upright sheets the title block stands above the lower one. */
    double up = f->zones_along == 0 ? 0 : CENTRING_INWARDS;
    drawing_line(drawing, LINE_FRAME, (Point){x, frame.y0 - out}, (Point){x, frame.y0 + up});
    drawing_line(drawing, LINE_FRAME, (Point){x, frame.y1 + out},
                 (Point){x, frame.y1 - CENTRING_INWARDS});
    drawing_line(drawing, LINE_FRAME, (Point){frame.x0 - out, y},
                 (Point){frame.x0 + CENTRING_INWARDS, y});
    drawing_line(drawing, LINE_FRAME, (Point){frame.x1 + out, y},
                 (Point){frame.x1 - CENTRING_INWARDS, y});
}

/* Where zone `i` of `count` begins along a side from `start` to `end`: ISO counts whole zones from
 * the middle and leaves what remains to the outermost ones; ASME divides the side evenly. */
static double zone_edge(const SheetFormat *f, int i, int count, double middle, double start,
                        double end)
{
    if (i == 0)
        return start;
    if (i == count)
        return end;
    return f->asme ? start + (end - start) * i / count : middle + (i - count / 2.0) * ZONE_LENGTH;
}

static void draw_zone_letter(Drawing *drawing, Point at, int number, bool letter)
{
    /* I and O are left out, as they look like figures. */
    static const char letters[] = "ABCDEFGHJKLMNPQRSTUVWXYZ";
    char text[8];
    if (letter)
        g_snprintf(text, sizeof text, "%c", letters[number % (int)(sizeof letters - 1)]);
    else
        g_snprintf(text, sizeof text, "%d", number + 1);
    drawing_text(drawing, at, (TextStyle){SHEET_LETTERING, TEXT_MIDDLE, TEXT_CENTRE, 0}, text);
}

static void draw_zones_along(Drawing *drawing, const SheetFormat *f, Box frame, Box outer)
{
    for (int i = 0; i < f->zones_along; i++) {
        double a = zone_edge(f, i, f->zones_along, f->width / 2, frame.x0, frame.x1);
        double b = zone_edge(f, i + 1, f->zones_along, f->width / 2, frame.x0, frame.x1);
        int number = f->asme ? f->zones_along - 1 - i : i;
        /* The centring marks stand where the middle rule would. */
        if (i > 0 && 2 * i != f->zones_along) {
            drawing_line(drawing, LINE_TABLE, (Point){a, frame.y0}, (Point){a, outer.y0});
            drawing_line(drawing, LINE_TABLE, (Point){a, frame.y1}, (Point){a, outer.y1});
        }
        draw_zone_letter(drawing, (Point){(a + b) / 2, (frame.y0 + outer.y0) / 2}, number, false);
        draw_zone_letter(drawing, (Point){(a + b) / 2, (frame.y1 + outer.y1) / 2}, number, false);
    }
}

static void draw_zones_up(Drawing *drawing, const SheetFormat *f, Box frame, Box outer)
{
    for (int i = 0; i < f->zones_up; i++) {
        double a = zone_edge(f, i, f->zones_up, f->height / 2, frame.y0, frame.y1);
        double b = zone_edge(f, i + 1, f->zones_up, f->height / 2, frame.y0, frame.y1);
        int number = f->asme ? i : f->zones_up - 1 - i;
        if (i > 0 && 2 * i != f->zones_up) {
            drawing_line(drawing, LINE_TABLE, (Point){frame.x0, a}, (Point){outer.x0, a});
            drawing_line(drawing, LINE_TABLE, (Point){frame.x1, a}, (Point){outer.x1, a});
        }
        draw_zone_letter(drawing, (Point){(frame.x0 + outer.x0) / 2, (a + b) / 2}, number, true);
        draw_zone_letter(drawing, (Point){(frame.x1 + outer.x1) / 2, (a + b) / 2}, number, true);
    }
}

void sheet_begin(Drawing *drawing, SheetSize size, const char *name)
{
    const SheetFormat *f = &formats[size];
    drawing_begin_sheet(drawing, f->width, f->height, name);
    drawing_about(drawing, ROLE_FURNITURE, 0);
    Box frame = sheet_frame(size);
    drawing_box(drawing, LINE_FRAME, frame);
    draw_centring(drawing, f, frame);
    if (f->zones_along == 0)
        return;
    Box outer = box_grown(frame, ZONE_BORDER);
    drawing_box(drawing, LINE_TABLE, outer);
    draw_zones_along(drawing, f, frame, outer);
    draw_zones_up(drawing, f, frame, outer);
}
