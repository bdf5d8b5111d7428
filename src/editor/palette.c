#include "editor/palette.h"

static const struct {
    float red, green, blue;
} inks[2][INK_COUNT] = {
    {
        [INK_LINE] = {0.16f, 0.18f, 0.20f},
        [INK_FAINT] = {0.52f, 0.54f, 0.56f},
        [INK_STOCK] = {0.985f, 0.98f, 0.965f},
        [INK_CUT] = {0.87f, 0.87f, 0.85f},
        [INK_PART] = {0.05f, 0.42f, 0.40f},
        [INK_FITTING] = {0.50f, 0.36f, 0.08f},
        [INK_KEEP_CLEAR] = {0.48f, 0.20f, 0.42f},
        [INK_CHOSEN] = {0.06f, 0.36f, 0.72f},
        [INK_STOP] = {0.72f, 0.10f, 0.10f},
        [INK_CAUTION] = {0.70f, 0.42f, 0.00f},
        [INK_NOTE] = {0.20f, 0.38f, 0.55f},
        [INK_ON_SIGN] = {1, 1, 1},
    },
    {
        [INK_LINE] = {0.90f, 0.89f, 0.86f},
        [INK_FAINT] = {0.55f, 0.56f, 0.57f},
        [INK_STOCK] = {0.20f, 0.21f, 0.22f},
        [INK_CUT] = {0.12f, 0.13f, 0.14f},
        [INK_PART] = {0.42f, 0.80f, 0.74f},
        [INK_FITTING] = {0.87f, 0.72f, 0.40f},
        [INK_KEEP_CLEAR] = {0.84f, 0.58f, 0.80f},
        [INK_CHOSEN] = {0.48f, 0.74f, 1.00f},
        [INK_STOP] = {0.98f, 0.50f, 0.46f},
        [INK_CAUTION] = {0.96f, 0.74f, 0.34f},
        [INK_NOTE] = {0.58f, 0.76f, 0.92f},
        [INK_ON_SIGN] = {0.08f, 0.08f, 0.08f},
    },
};

Colour palette_colour(gboolean dark, Ink ink)
{
    return (Colour){inks[dark][ink].red, inks[dark][ink].green, inks[dark][ink].blue, 1};
}

GdkRGBA palette_rgba(gboolean dark, Ink ink)
{
    return (GdkRGBA){inks[dark][ink].red, inks[dark][ink].green, inks[dark][ink].blue, 1};
}

void palette_set(cairo_t *cairo, gboolean dark, Ink ink, double alpha)
{
    Colour colour = palette_colour(dark, ink);
    cairo_set_source_rgba(cairo, colour.red, colour.green, colour.blue, alpha);
}

Ink palette_level(FindingLevel level)
{
    return level == LEVEL_STOP ? INK_STOP : level == LEVEL_CAUTION ? INK_CAUTION : INK_NOTE;
}

gboolean palette_is_dark(GtkWidget *widget)
{
    GdkRGBA text;
    gtk_style_context_get_color(gtk_widget_get_style_context(widget), &text);
    return 0.3f * text.red + 0.6f * text.green + 0.1f * text.blue > 0.5f;
}

static Colour screen_colour(const Mark *mark, void *user)
{
    const Screen *screen = user;
    if (screen->chosen)
        return palette_colour(screen->dark, INK_CHOSEN);
    switch (mark->role) {
    case ROLE_PART:
        return palette_colour(screen->dark, INK_PART);
    case ROLE_FITTING:
        return palette_colour(screen->dark, INK_FITTING);
    case ROLE_KEEP_CLEAR:
        return palette_colour(screen->dark, INK_KEEP_CLEAR);
    case ROLE_CENTRE_MARK:
        return palette_colour(screen->dark, INK_FAINT);
    default:
        return palette_colour(screen->dark, INK_LINE);
    }
}

/* A screen is read from nearer than a sheet: its lines may be finer. */
#define SCREEN_WIDTHS 0.7

PlayStyle palette_screen_style(const Screen *screen)
{
    return (PlayStyle){screen_colour, (void *)screen, SCREEN_WIDTHS};
}
