#include "editor/picture.h"

#include "drawing/plan.h"
#include "editor/palette.h"

#define PIXELS (96.0 / 25.4)

typedef struct Picture {
    PinTrayItem *item;
    Drawing *drawing;
    Unit unit;
    int width, height;
    double most;
} Picture;

static void picture_free(gpointer data)
{
    Picture *picture = data;
    g_object_unref(picture->item);
    drawing_free(picture->drawing);
    g_free(picture);
}

static bool add_box(const Feature *feature, void *data)
{
    Box *box = data;
    *box = box_union(*box, feature->box);
    return true;
}

/* The thing is put on a plate of its own, large enough for any part, and drawn from there. */
static void fill(Picture *picture)
{
    Plate *plate = plate_new(LENGTH_MM * 1000, LENGTH_MM * 1000, LENGTH_MM * 20,
                             picture->unit == UNIT_INCH ? PLATE_INCH : PLATE_MM);
    Session *session = session_new(plate, NULL);
    Edit edit = EDIT_EMPTY;
    Place middle = {LENGTH_MM * 500, LENGTH_MM * 500};
    drawing_clear(picture->drawing);
    drawing_begin_sheet(picture->drawing, 0, 0, "");
    if (pin_tray_item_make_sample(picture->item, session, ID_TOP, middle, &edit, NULL) &&
        session_do(session, &edit, NULL)) {
        DrawingSource source = {session_plate(session), session_placed(session)};
        Box box = BOX_EMPTY;
        placed_each(source.placed, add_box, &box);
        double scale = MIN((picture->width - 4) / PIXELS / (box.x1 - box.x0),
                           (picture->height - 4) / PIXELS / (box.y1 - box.y0));
        scale = MIN(scale, picture->most);
        ViewMap map = {{-scale * (box.x0 + box.x1) / 2, -scale * (box.y0 + box.y1) / 2}, scale};
        plan_features(picture->drawing, &source, map, ID_TOP,
                      FEATURE_CUT | FEATURE_PART | FEATURE_KEEP_CLEAR);
    }
    edit_clear(&edit);
    session_free(session);
}

static void draw(GtkDrawingArea *area, cairo_t *cairo, int width, int height, gpointer data)
{
    Picture *picture = data;
    Screen screen = {palette_is_dark(GTK_WIDGET(area)), FALSE};
    PlayStyle style = palette_screen_style(&screen);
    cairo_translate(cairo, width / 2.0, height / 2.0);
    cairo_scale(cairo, PIXELS, PIXELS);
    play_cairo_marks(picture->drawing, 0, picture->drawing->mark_count, 0, &style, cairo);
}

void picture_update(GtkWidget *widget)
{
    Picture *picture = g_object_get_data(G_OBJECT(widget), "picture");
    if (!picture)
        return;
    fill(picture);
    gtk_widget_queue_draw(widget);
}

GtkWidget *picture_new(PinTrayItem *item, Lettering *lettering, Unit unit, int width, int height,
                       double most)
{
    GtkWidget *area = gtk_drawing_area_new();
    gtk_drawing_area_set_content_width(GTK_DRAWING_AREA(area), width);
    gtk_drawing_area_set_content_height(GTK_DRAWING_AREA(area), height);
    gtk_widget_set_valign(area, GTK_ALIGN_CENTER);
    if (!lettering)
        return area;
    Picture *picture = g_new0(Picture, 1);
    picture->item = g_object_ref(item);
    picture->drawing = drawing_new(lettering);
    picture->unit = unit;
    picture->width = width;
    picture->height = height;
    picture->most = most;
    g_object_set_data_full(G_OBJECT(area), "picture", picture, picture_free);
    gtk_drawing_area_set_draw_func(GTK_DRAWING_AREA(area), draw, picture, NULL);
    fill(picture);
    return area;
}
