/* The sine bar on its stack of blocks, to scale. */
#include "editor/figure-picture-private.h"

#include "editor/speech.h"
#include "trade/gauge-blocks.h"

#include <string.h>

typedef struct SineBar {
    double length, angle, scale, radius; /* mm, radians; mm on the sheet for 1 mm; of the rollers */
    Point foot;                          /* under the lower roller */
} SineBar;

static Point on_bar(const SineBar *bar, double along, double across)
{
    double c = cos(bar->angle), s = sin(bar->angle);
    return (Point){bar->foot.x + (along * c - across * s) * bar->scale,
                   bar->foot.y + (bar->radius + along * s + across * c) * bar->scale};
}

static void draw_bar(const FigurePicture *picture, const SineBar *bar)
{
    double l = bar->length, r = bar->radius;
    Point body[] = {on_bar(bar, -0.1 * l, 0.4 * r), on_bar(bar, 1.1 * l, 0.4 * r),
                    on_bar(bar, 1.1 * l, 2.2 * r), on_bar(bar, -0.1 * l, 2.2 * r)};
    for (int roller = 0; roller < 2; roller++) {
        Point centre = on_bar(bar, roller * l, 0);
        drawing_about(picture->drawing, ROLE_FITTING, 0);
        drawing_circle(picture->drawing, LINE_VISIBLE, centre, r * bar->scale);
        drawing_about(picture->drawing, ROLE_CENTRE_MARK, 0);
        dimension_centre_mark(picture->drawing, centre, r * bar->scale);
    }
    picture_thing(picture, ROLE_FITTING, body, 4);
}

/* Each block with its size; the sizes are kept apart where the blocks are thin. */
static void draw_blocks(const FigurePicture *picture, const SineBar *bar, double *right)
{
    GaugeStack stack;
    GaugeSet set = strcmp(picture_words(picture, "set"), gauge_set_text(GAUGE_METRIC_47))
                       ? GAUGE_INCH_81
                       : GAUGE_METRIC_47;
    const FigureValue *height = picture_value(picture, "stack");
    if (!height || !gauge_stack(height->length, set, &stack, NULL))
        return;
    double x = bar->foot.x + bar->length * cos(bar->angle) * bar->scale, y = bar->foot.y;
    double half = 0.11 * bar->length * bar->scale, text_at = y;
    *right = x + half;
    for (size_t i = stack.count; i-- > 0;) {
        double up = y + length_to_mm(stack.blocks[i]) * bar->scale;
        picture_box(picture, ROLE_PART, (Box){x - half, y, x + half, up});
        char text[LENGTH_PEOPLE_TEXT];
        pin_length_text_with_unit(stack.blocks[i], set == GAUGE_INCH_81 ? UNIT_INCH : UNIT_MM,
                                  text);
        text_at = fmax((y + up) / 2, text_at + (i + 1 == stack.count ? 1.5 : 4));
        drawing_about(picture->drawing, ROLE_DIMENSION, 0);
        drawing_line(picture->drawing, LINE_DIMENSION, (Point){x + half, (y + up) / 2},
                     (Point){x + half + 8, text_at});
        Box box = picture_note(picture, (Point){x + half + 9, text_at}, TEXT_START, text);
        *right = fmax(*right, box.x1);
        y = up;
    }
}

void picture_of_sine(const FigurePicture *picture)
{
    SineBar bar = {.length = picture_number(picture, "length", 1)};
    if (bar.length <= 0)
        return;
    bar.angle = picture_number(picture, "angle", 0) * G_PI / 180;
    bar.radius = 0.06 * bar.length;
    double wide = (1.2 * cos(bar.angle) + 0.2) * bar.length;
    double high = (1.1 * sin(bar.angle) + 0.06 + 0.14) * bar.length;
    bar.scale = fmin((picture->width - 66) / wide, (picture->height - 16) / high);
    double room = picture->width - 62 - wide * bar.scale;
    bar.foot = (Point){10 + (0.1 * bar.length + bar.radius * 2) * bar.scale + room / 2, 8};
    drawing_about(picture->drawing, ROLE_STOCK, 0);
    drawing_line(picture->drawing, LINE_VISIBLE, (Point){4, 8}, (Point){picture->width - 4, 8});
    draw_bar(picture, &bar);
    double right = 0, rise = bar.length * sin(bar.angle) * bar.scale;
    double x = bar.foot.x + bar.length * cos(bar.angle) * bar.scale;
    draw_blocks(picture, &bar, &right);
    if (rise > 0)
        picture_dimension(picture, (Point){right, 8}, (Point){right, 8 + rise}, true, right + 7,
                          NULL, picture_number(picture, "stack", 0));
    char text[PICTURE_WORDS];
    g_snprintf(text, sizeof text, "%.6g°", picture_number(picture, "angle", 0));
    pin_figures(text);
    picture_note(picture, (Point){(bar.foot.x + x) / 2, 4}, TEXT_MIDDLE, text);
}
