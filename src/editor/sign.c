#include "editor/sign.h"

static void trace(cairo_t *cairo, Point at, FindingLevel level, double radius)
{
    int corners = level == LEVEL_STOP ? 8 : 4;
    double first = level == LEVEL_STOP ? G_PI / 8 : 0;
    cairo_new_path(cairo);
    if (level == LEVEL_NOTE) {
        cairo_arc(cairo, at.x, at.y, radius, 0, 2 * G_PI);
        return;
    }
    if (level == LEVEL_CAUTION)
        radius *= 1.2;
    for (int i = 0; i < corners; i++)
        cairo_line_to(cairo, at.x + radius * cos(first + i * 2 * G_PI / corners),
                      at.y + radius * sin(first + i * 2 * G_PI / corners));
    cairo_close_path(cairo);
}

void sign_draw(cairo_t *cairo, Lettering *lettering, Point at, FindingLevel level, int number,
               gboolean dark, gboolean pointed_out)
{
    double radius = pointed_out ? SIGN_RADIUS * 1.25 : SIGN_RADIUS;
    trace(cairo, at, level, radius);
    palette_set(cairo, dark, palette_level(level), 1);
    cairo_fill_preserve(cairo);
    palette_set(cairo, dark, INK_ON_SIGN, 1);
    cairo_set_line_width(cairo, 1.5);
    cairo_stroke(cairo);
    if (number <= 0 || !lettering)
        return;
    char text[8];
    g_snprintf(text, sizeof text, "%d", number);
    double height = number < 100 ? 0.8 * radius : 0.6 * radius;
    TextExtent extent = lettering_extent(lettering, text, height);
    cairo_save(cairo);
    cairo_translate(cairo, at.x - extent.width / 2, at.y + height / 2);
    lettering_show(lettering, cairo, text, height);
    cairo_restore(cairo);
}
