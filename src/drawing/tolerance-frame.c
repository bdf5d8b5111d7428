#include "drawing/tolerance-frame.h"

#include <glib.h>

#define TALL 2.0 /* letter heights */
#define PAD 0.5  /* beside a compartment's text, in letter heights */

double tolerance_frame_height(double height)
{
    return TALL * height;
}

/* A compartment is no narrower than it is tall. */
static double field_width(const Drawing *drawing, const char *field, double height)
{
    double text = lettering_extent(drawing->lettering, field, height).width;
    return fmax(TALL * height, text + 2 * PAD * height);
}

double tolerance_frame_width(const Drawing *drawing, const char *fields, double height)
{
    char **each = g_strsplit(fields, TOLERANCE_FRAME_SEPARATOR, -1);
    double width = 0;
    for (int i = 0; each[i]; i++)
        width += field_width(drawing, each[i], height);
    g_strfreev(each);
    return width;
}

Box tolerance_frame_draw(Drawing *drawing, Point corner, const char *fields, double height)
{
    char **each = g_strsplit(fields, TOLERANCE_FRAME_SEPARATOR, -1);
    double bottom = corner.y - TALL * height, x = corner.x;
    for (int i = 0; each[i]; i++) {
        double width = field_width(drawing, each[i], height);
        if (i > 0)
            drawing_line(drawing, LINE_DIMENSION, (Point){x, bottom}, (Point){x, corner.y});
        drawing_text(drawing, (Point){x + width / 2, (bottom + corner.y) / 2},
                     (TextStyle){height, TEXT_MIDDLE, TEXT_CENTRE, 0}, each[i]);
        x += width;
    }
    g_strfreev(each);
    Box box = {corner.x, bottom, x, corner.y};
    drawing_box(drawing, LINE_DIMENSION, box);
    return box;
}
