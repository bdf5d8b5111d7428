/* The cut from the front, and the forces side by side. */
#include "editor/figure-picture-private.h"

static void draw_cut(const FigurePicture *picture, double left, double right)
{
    double diameter = picture_number(picture, "cutter", 1);
    double width = picture_number(picture, "width", 1), depth = picture_number(picture, "depth", 1);
    double scale = fmin(20 / diameter, (picture->height - 32) / (1.6 * depth + 0.01));
    double cutter = diameter * scale, cut = depth * scale, top = 12 + fmax(1.5 * cut, 5);
    double edge = right - cutter - 6;
    top = fmin(top, picture->height - 16);
    Point plate[] = {{left, 4}, {right, 4}, {right, 12}, {left, 12}};
    picture_cut(picture, plate, 4);
    Point part[] = {{left + 4, 12},
                    {edge + width * scale, 12},
                    {edge + width * scale, top - cut},
                    {edge, top - cut},
                    {edge, top},
                    {left + 4, top}};
    picture_thing(picture, ROLE_PART, part, G_N_ELEMENTS(part));
    Box mill = {edge, top - cut, edge + cutter, picture->height - 8};
    picture_box(picture, ROLE_FITTING, mill);
    drawing_about(picture->drawing, ROLE_CENTRE_MARK, 0);
    double middle = (mill.x0 + mill.x1) / 2;
    drawing_line(picture->drawing, LINE_CENTRE, (Point){middle, mill.y0 - 2},
                 (Point){middle, mill.y1 + 3});
    drawing_about(picture->drawing, ROLE_LABEL, 0);
    double clamp = left + 8;
    drawing_line(picture->drawing, LINE_SIGN, (Point){clamp, top + 12}, (Point){clamp, top + 3});
    dimension_arrow(picture->drawing, (Point){clamp, top}, (Point){0, -1});
    picture_note(picture, (Point){clamp + 3, top + 8}, TEXT_START, _("clamping"));
    picture_dimension(picture, (Point){edge, top}, (Point){edge, top - cut}, true, edge - 5, NULL,
                      depth);
}

/* Friction's hold, the cutting force as it is, and with its factor. */
static void draw_forces(const FigurePicture *picture, double left, double right)
{
    double cutting = picture_number(picture, "cutting_force", 0);
    struct {
        const char *words;
        double newtons;
        MarkRole role;
    } bars[] = {{_("holding"), picture_number(picture, "holding_force", 0), ROLE_PART},
                {_("cutting"), cutting, ROLE_FITTING},
                {_("cutting with the factor"), cutting * picture_number(picture, "factor", 1),
                 ROLE_FITTING}};
    double most = 0;
    for (gsize i = 0; i < G_N_ELEMENTS(bars); i++)
        most = fmax(most, bars[i].newtons);
    double pitch = (picture->height - 6) / 3;
    for (gsize i = 0; i < G_N_ELEMENTS(bars); i++) {
        double y = picture->height - 3 - pitch * (double)(i + 1);
        double x = left + (most > 0 ? bars[i].newtons / most * (right - left) : 0);
        char text[PICTURE_WORDS];
        if (x > left)
            picture_box(picture, bars[i].role, (Box){left, y + 1, x, y + pitch * 0.5});
        g_snprintf(text, sizeof text, "%s %.0f N", bars[i].words, bars[i].newtons);
        picture_note(picture, (Point){left + 1.5, y + pitch * 0.5 + 3.5}, TEXT_START, text);
    }
    drawing_about(picture->drawing, ROLE_DIMENSION, 0);
    drawing_line(picture->drawing, LINE_VISIBLE, (Point){left, 3},
                 (Point){left, picture->height - 6});
}

void picture_of_holding(const FigurePicture *picture)
{
    double middle = picture->width * 0.5;
    draw_cut(picture, 4, middle - 8);
    draw_forces(picture, middle + 4, picture->width - 10);
}
