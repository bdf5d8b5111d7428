#include "editor/layout-band.h"

#include "drawing/error-band.h"
#include "editor/intl.h"
#include "editor/layout-private.h"
#include "editor/palette.h"

#define DATA "error-band"
#define FIGURE_HEIGHT 9.0 /* pixels */
#define ROOM 24.0         /* pixels round the station for the band and its words */

/* What is shown, and the band as it was worked out last: that takes longer than a frame has. */
typedef struct LayoutBand {
    gboolean shown, known;
    FeatureId station;
    ErrorBand band;
    PinDocument *document; /* the one it was worked out for; not owned */
    gulong handler;
} LayoutBand;

static void forget(LayoutBand *own)
{
    error_band_clear(&own->band);
    own->known = FALSE;
}

static void free_band(gpointer data)
{
    LayoutBand *own = data;
    forget(own);
    if (own->document) {
        g_signal_handler_disconnect(own->document, own->handler);
        g_object_remove_weak_pointer(G_OBJECT(own->document), (gpointer *)&own->document);
    }
    g_free(own);
}

static LayoutBand *band_of(PinLayout *layout)
{
    LayoutBand *own = g_object_get_data(G_OBJECT(layout), DATA);
    if (!own) {
        own = g_new0(LayoutBand, 1);
        g_object_set_data_full(G_OBJECT(layout), DATA, own, free_band);
    }
    return own;
}

static void on_changed(PinDocument *document, LayoutBand *own)
{
    forget(own);
}

/* A layout may be given another document. */
static void follow(LayoutBand *own, PinDocument *document)
{
    if (own->document == document)
        return;
    if (own->document) {
        g_signal_handler_disconnect(own->document, own->handler);
        g_object_remove_weak_pointer(G_OBJECT(own->document), (gpointer *)&own->document);
    }
    forget(own);
    own->document = document;
    g_object_add_weak_pointer(G_OBJECT(document), (gpointer *)&own->document);
    own->handler = g_signal_connect(document, "changed", G_CALLBACK(on_changed), own);
}

void layout_show_error_band(PinLayout *layout, gboolean show)
{
    band_of(layout)->shown = show;
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

/* The selected station; NULL where none is, or on another face. */
static const Feature *selected_station(PinLayout *layout)
{
    FeatureId one = pin_document_selected_one(layout->document);
    const Feature *feature = placed_find(layout_source(layout).placed, one);
    return feature && feature->kind == FEATURE_PART && feature->face == layout->face ? feature
                                                                                     : NULL;
}

static Box on_screen(PinLayout *layout, Box box)
{
    Point low = layout_from_face(layout, (Point){box.x0, box.y0});
    Point high = layout_from_face(layout, (Point){box.x1, box.y1});
    return (Box){low.x, high.y, high.x, low.y};
}

static void draw_words(PinLayout *layout, cairo_t *cairo, Point at, double factor)
{
    char *words = g_strdup_printf(_("Location error, drawn %g times as large"), factor);
    double width = lettering_extent(layout->lettering, words, FIGURE_HEIGHT).width;
    cairo_rectangle(cairo, at.x - 4, at.y - FIGURE_HEIGHT - 4, width + 8, FIGURE_HEIGHT + 8);
    palette_set(cairo, layout->dark, INK_STOCK, 0.9);
    cairo_fill(cairo);
    palette_set(cairo, layout->dark, INK_CHOSEN, 1);
    cairo_translate(cairo, at.x, at.y);
    lettering_show(layout->lettering, cairo, words, FIGURE_HEIGHT);
    g_free(words);
}

static void play_band(PinLayout *layout, cairo_t *cairo)
{
    Screen screen = {layout->dark, true};
    PlayStyle style = palette_screen_style(&screen);
    cairo_save(cairo);
    cairo_translate(cairo, layout->x, layout->y);
    cairo_scale(cairo, SHEET_PIXELS, SHEET_PIXELS);
    play_cairo_marks(layout->moving, 0, layout->moving->mark_count, 0, &style, cairo);
    cairo_restore(cairo);
}

/* Not while something is dragged: a frame of that has no time for it. */
void layout_draw_error_band(PinLayout *layout, GtkSnapshot *snapshot)
{
    LayoutBand *own = band_of(layout);
    if (!own->shown || pin_document_drag(layout->document))
        return;
    const Feature *station = selected_station(layout);
    if (!station)
        return;
    DrawingSource source = layout_source(layout);
    follow(own, layout->document);
    if (!own->known || own->station != station->id) {
        forget(own);
        error_band_make(&source, station->id, &own->band);
        own->known = TRUE;
        own->station = station->id;
    }
    if (own->band.count == 0)
        return;
    Box box = box_grown(on_screen(layout, station->box), ROOM + ERROR_BAND_WIDEST * SHEET_PIXELS);
    box.x1 = fmax(box.x1, box.x0 + 360);
    cairo_t *cairo = layout_append(layout, snapshot, box);
    if (!cairo)
        return;
    ViewMap map = layout_map(layout);
    double factor = error_band_factor(&own->band, map.scale);
    layout_begin_drawing(layout->moving);
    drawing_about(layout->moving, ROLE_NOTE, station->id);
    error_band_draw(layout->moving, &own->band, map, factor);
    play_band(layout, cairo);
    draw_words(layout, cairo, (Point){box.x0 + 6, box.y1 - 6}, factor);
    cairo_destroy(cairo);
}
