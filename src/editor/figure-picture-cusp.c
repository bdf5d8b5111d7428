/* The ball cutter on its paths, and the cusps between them from nearer. */
#include "editor/figure-picture-private.h"

#define PATHS 4

typedef struct CuspView {
    double radius, step, cusp;
} CuspView;

static void draw_ball(const FigurePicture *picture, const CuspView *cusp, double left, double right)
{
    double scale = fmin((right - left - 10) / (2 * cusp->radius + 3 * cusp->step),
                        (picture->height - 18) / (2.6 * cusp->radius));
    double r = cusp->radius * scale, step = cusp->step * scale, x = left + 4 + r, y = 6 + r;
    Vertex cutter[] = {
        {x - r, y + 1.4 * r, 0}, {x - r, y, r}, {x + r, y, 0}, {x + r, y + 1.4 * r, 0}};
    /* Past the next paths, so that how far they lie apart is seen against the ball. */
    drawing_about(picture->drawing, ROLE_FITTING, 0);
    drawing_path(picture->drawing, LINE_VISIBLE, cutter, 4, false);
    for (int i = 1; i < PATHS; i++)
        drawing_arc(picture->drawing, LINE_PHANTOM, (Point){x - r + i * step, y},
                    (Point){x + r + i * step, y}, r);
    drawing_about(picture->drawing, ROLE_STOCK, 0);
    drawing_line(picture->drawing, LINE_VISIBLE, (Point){left, y - r},
                 (Point){fmin(right, x + r + 3 * step + 4), y - r});
    picture_dimension(picture, (Point){x - r, y + 1.4 * r}, (Point){x + r, y + 1.4 * r}, false,
                      y + 1.4 * r + 4, NULL, 2 * cusp->radius);
}

static void draw_cusps(const FigurePicture *picture, const CuspView *cusp, double left,
                       double right)
{
    double wide = (right - left - 6) / 3, across = wide / cusp->step;
    double times = picture_times(14 / (cusp->cusp * across)), up = across * times;
    double base = 16, half = cusp->step / 2;
    if (cusp->cusp * up > picture->height - 34)
        up = (picture->height - 34) / cusp->cusp;
    enum { PIECES = 24 };
    Point metal[3 * PIECES + 3];
    size_t count = 0;
    for (int i = 0; i <= 3 * PIECES; i++) {
        double along = cusp->step * i / PIECES, from = fmod(along, cusp->step) - half;
        double fall = cusp->radius * cusp->radius - from * from;
        double rise = cusp->radius - sqrt(fmax(fall, 0));
        metal[count++] = (Point){left + along * across, base + rise * up};
    }
    metal[count++] = (Point){left + 3 * wide, base - 8};
    metal[count++] = (Point){left, base - 8};
    picture_cut(picture, metal, count);
    double peak = base + cusp->cusp * up;
    picture_dimension(picture, (Point){left + wide, peak}, (Point){left + 2 * wide, peak}, false,
                      peak + 6, NULL, cusp->step);
    picture_dimension(picture, (Point){left + wide / 2, base}, (Point){left, peak}, true, left - 6,
                      NULL, cusp->cusp);
    char text[PICTURE_WORDS];
    if (up == across)
        g_strlcpy(text, _("cusps, to scale"), sizeof text);
    else
        g_snprintf(text, sizeof text, _("cusps, drawn %.0f times as high"), up / across);
    picture_note(picture, (Point){left + 1.5 * wide, 4}, TEXT_MIDDLE, text);
}

void picture_of_cusp(const FigurePicture *picture)
{
    CuspView cusp = {.radius = picture_number(picture, "cutter", 0) / 2,
                     .step = picture_number(picture, "step", 0),
                     .cusp = picture_number(picture, "cusp", 0)};
    if (cusp.radius <= 0 || cusp.step <= 0 || cusp.cusp <= 0)
        return;
    draw_ball(picture, &cusp, 4, picture->width * 0.44);
    draw_cusps(picture, &cusp, picture->width * 0.52, picture->width - 10);
}
