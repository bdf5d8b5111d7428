#include "editor/figure-picture.h"

#include "drawing/play-cairo.h"
#include "editor/figure-picture-private.h"
#include "editor/palette.h"

#define PIXELS (96.0 / 25.4)

static const struct {
    const char *what;
    void (*draw)(const FigurePicture *picture);
} pictures[] = {
    {"thread", picture_of_thread},
    {"drill", picture_of_drill},
    {"tap", picture_of_tap},
    {"engagement", picture_of_engagement},
    {"fit", picture_of_fit},
    {"bevel", picture_of_bevel},
    {"sine", picture_of_sine},
    {"cusp", picture_of_cusp},
    {"location-error", picture_of_location_error},
    {"holding", picture_of_holding},
    {"batch", picture_of_batch},
};

gboolean figure_picture_build(Drawing *drawing, const Figure *figure, Unit unit, double width,
                              double height)
{
    FigurePicture picture = {drawing, figure, unit, width, height};
    for (gsize i = 0; i < G_N_ELEMENTS(pictures); i++) {
        if (g_strcmp0(pictures[i].what, figure->what) != 0)
            continue;
        pictures[i].draw(&picture);
        return TRUE;
    }
    return FALSE;
}

/* --- the widget --------------------------------------------------------------------------------
 */

typedef struct Shown {
    Drawing *drawing;
    Figure figure;
    Unit unit;
    gboolean any;
} Shown;

static void shown_free(gpointer data)
{
    Shown *shown = data;
    drawing_free(shown->drawing);
    g_free(shown);
}

/* Metal and things are tinted; all other fills, as arrowheads, are in full colour. */
static Colour picture_colour(const Mark *mark, void *user)
{
    gboolean dark = *(gboolean *)user, fill = mark->kind == MARK_FILL;
    Colour colour;
    switch (mark->role) {
    case ROLE_STOCK:
        if (fill)
            return palette_colour(dark, INK_CUT);
        return palette_colour(dark, mark->line == LINE_HATCHING ? INK_FAINT : INK_LINE);
    case ROLE_PART:
    case ROLE_FITTING:
        colour = palette_colour(dark, mark->role == ROLE_PART ? INK_PART : INK_FITTING);
        colour.alpha = fill ? 0.25 : 1;
        return colour;
    case ROLE_CENTRE_MARK:
        return palette_colour(dark, INK_FAINT);
    case ROLE_LABEL:
        return palette_colour(dark, INK_CHOSEN);
    default:
        return palette_colour(dark, INK_LINE);
    }
}

#define SCREEN_WIDTHS 0.7 /* as on the layout */

static void draw(GtkDrawingArea *area, cairo_t *cairo, int width, int height, gpointer data)
{
    Shown *shown = data;
    gboolean dark = palette_is_dark(GTK_WIDGET(area));
    PlayStyle style = {picture_colour, &dark, SCREEN_WIDTHS};
    if (!shown->any)
        return;
    drawing_clear(shown->drawing);
    drawing_begin_sheet(shown->drawing, width / PIXELS, height / PIXELS, "");
    figure_picture_build(shown->drawing, &shown->figure, shown->unit, width / PIXELS,
                         height / PIXELS);
    cairo_scale(cairo, PIXELS, PIXELS);
    play_cairo_sheet(shown->drawing, 0, &style, cairo);
}

GtkWidget *figure_picture_new(Lettering *lettering, const char *name)
{
    GtkWidget *area =
        g_object_new(GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG, NULL);
    gtk_drawing_area_set_content_width(GTK_DRAWING_AREA(area), 560);
    gtk_drawing_area_set_content_height(GTK_DRAWING_AREA(area), 256);
    gtk_widget_set_hexpand(area, TRUE);
    gtk_widget_set_overflow(area, GTK_OVERFLOW_HIDDEN);
    gtk_accessible_update_property(GTK_ACCESSIBLE(area), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
    if (!lettering)
        return area;
    Shown *shown = g_new0(Shown, 1);
    shown->drawing = drawing_new(lettering);
    g_object_set_data_full(G_OBJECT(area), "shown", shown, shown_free);
    gtk_drawing_area_set_draw_func(GTK_DRAWING_AREA(area), draw, shown, NULL);
    return area;
}

void figure_picture_set(GtkWidget *picture, const Figure *figure, Unit unit)
{
    Shown *shown = g_object_get_data(G_OBJECT(picture), "shown");
    if (!shown)
        return;
    shown->any = figure != NULL;
    if (figure)
        shown->figure = *figure;
    shown->unit = unit;
    gtk_widget_queue_draw(picture);
}
