#include "editor/plate-picture.h"

#include "drawing/look.h"
#include "drawing/plan.h"
#include "editor/palette.h"
#include "placed/placed.h"

#define MARGIN 6.0 /* pixels round the stock */
/* So many pixels to a millimetre of the drawing keep its lines fine but visible. */
#define PIXELS 2.6

typedef struct Picture {
    Drawing *drawing; /* NULL: nothing to show */
    double width, height;
    int room_width, room_height;
} Picture;

static void picture_free(gpointer data)
{
    Picture *picture = data;
    drawing_free(picture->drawing);
    g_free(picture);
}

/* One for all pictures: fonts are slow to find. */
static Lettering *shared_lettering(void)
{
    static Lettering *lettering;
    if (!lettering)
        lettering = lettering_new(NULL);
    return lettering;
}

static void draw(GtkDrawingArea *area, cairo_t *cairo, int width, int height, gpointer data)
{
    const Picture *picture = data;
    if (!picture->drawing)
        return;
    const PlayStyle *style = palette_is_dark(GTK_WIDGET(area)) ? &look_dark : &look_light;
    double factor =
        PIXELS * MIN((double)width / picture->room_width, (double)height / picture->room_height);
    cairo_translate(cairo, (width - factor * picture->width) / 2,
                    (height - factor * picture->height) / 2);
    cairo_scale(cairo, factor, factor);
    play_cairo_sheet(picture->drawing, 0, style, cairo);
}

/* Seats lie under the plate: their circles are hidden lines. */
static void draw_seats(Drawing *drawing, const Plate *plate, ViewMap map)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        for (uint32_t k = 0; record->kind == RECORD_BASE && k < record->base.seats.count; k++) {
            const BaseSeat *seat = LIST_AT(&record->base.seats, BaseSeat, k);
            Point at = {length_to_mm(seat->at.x), length_to_mm(seat->at.y)};
            drawing_about(drawing, ROLE_FITTING, record->id);
            drawing_circle(drawing, LINE_HIDDEN, view_point(map, at),
                           map.scale * length_to_mm(seat->diameter) / 2);
        }
    }
}

void plate_picture_set(GtkWidget *widget, const Plate *plate)
{
    Picture *picture = g_object_get_data(G_OBJECT(widget), "plate-picture");
    gtk_widget_queue_draw(widget);
    if (!plate || !shared_lettering()) {
        g_clear_pointer(&picture->drawing, drawing_free);
        return;
    }
    const Stock *stock = &plate_settings(plate)->stock;
    double length = length_to_mm(stock->length), width = length_to_mm(stock->width);
    double scale = MIN((picture->room_width - 2 * MARGIN) / length,
                       (picture->room_height - 2 * MARGIN) / width) /
                   PIXELS;
    picture->width = length * scale + 2 * MARGIN / PIXELS;
    picture->height = width * scale + 2 * MARGIN / PIXELS;
    Placed *placed = placed_new(plate);
    DrawingSource source = {plate, placed};
    ViewMap map = {{MARGIN / PIXELS, MARGIN / PIXELS}, scale};
    if (!picture->drawing)
        picture->drawing = drawing_new(shared_lettering());
    drawing_clear(picture->drawing);
    drawing_begin_sheet(picture->drawing, picture->width, picture->height, "");
    plan_ground(picture->drawing, &source, map, ID_TOP);
    plan_stock(picture->drawing, &source, map);
    plan_features(picture->drawing, &source, map, ID_TOP, ~0U);
    draw_seats(picture->drawing, plate, map);
    plan_datum(picture->drawing, &source, map);
    placed_free(placed);
}

GtkWidget *plate_picture_new(int width, int height)
{
    /* What it shows is said in words beside it. */
    GtkWidget *area = g_object_new(GTK_TYPE_DRAWING_AREA, "accessible-role",
                                   GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
    Picture *picture = g_new0(Picture, 1);
    picture->room_width = width;
    picture->room_height = height;
    gtk_drawing_area_set_content_width(GTK_DRAWING_AREA(area), width);
    gtk_drawing_area_set_content_height(GTK_DRAWING_AREA(area), height);
    g_object_set_data_full(G_OBJECT(area), "plate-picture", picture, picture_free);
    gtk_drawing_area_set_draw_func(GTK_DRAWING_AREA(area), draw, picture, NULL);
    return area;
}
