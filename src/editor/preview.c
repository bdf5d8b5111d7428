#include "editor/preview.h"

#include "drawing/play-cairo.h"
#include "editor/access.h"
#include "editor/intl.h"

struct _PinPreview {
    GtkWindow parent_instance;
    GtkWidget *both_units, *chained;
    GtkBox *sheets;
    GtkButton *print;
    Drawing *drawing;
};

G_DEFINE_FINAL_TYPE(PinPreview, pin_preview, GTK_TYPE_WINDOW)

static void draw(GtkDrawingArea *area, cairo_t *cairo, int width, int height, gpointer data)
{
    PinPreview *preview = data;
    gsize number = GPOINTER_TO_SIZE(g_object_get_data(G_OBJECT(area), "sheet"));
    const Sheet *sheet = &preview->drawing->sheets[number];
    double scale = MIN(width / sheet->width, height / sheet->height);
    cairo_translate(cairo, (width - sheet->width * scale) / 2,
                    (height - sheet->height * scale) / 2);
    cairo_scale(cairo, scale, scale);
    cairo_rectangle(cairo, 0, 0, sheet->width, sheet->height);
    cairo_set_source_rgb(cairo, 1, 1, 1);
    cairo_fill(cairo);
    play_cairo_sheet(preview->drawing, number, &play_style_print, cairo);
}

static void add_sheet(PinPreview *preview, gsize number)
{
    const Sheet *sheet = &preview->drawing->sheets[number];
    GtkWidget *frame = gtk_aspect_frame_new(0.5f, 0, (float)(sheet->width / sheet->height), FALSE);
    GtkWidget *area = gtk_drawing_area_new();
    gtk_drawing_area_set_content_width(GTK_DRAWING_AREA(area), 600);
    gtk_drawing_area_set_content_height(GTK_DRAWING_AREA(area),
                                        (int)(860 * sheet->height / sheet->width));
    g_object_set_data(G_OBJECT(area), "sheet", GSIZE_TO_POINTER(number));
    gtk_drawing_area_set_draw_func(GTK_DRAWING_AREA(area), draw, preview, NULL);
    char *name = g_strdup_printf(_("Sheet %u of %u"), (guint)number + 1,
                                 (guint)preview->drawing->sheet_count);
    gtk_accessible_update_property(GTK_ACCESSIBLE(area), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
    g_free(name);
    gtk_aspect_frame_set_child(GTK_ASPECT_FRAME(frame), area);
    gtk_box_append(preview->sheets, frame);
}

static void on_print(GtkButton *button, PinPreview *preview)
{
    g_signal_emit_by_name(preview, "print");
}

void pin_preview_set_drawing(PinPreview *preview, Drawing *drawing)
{
    for (GtkWidget *sheet = gtk_widget_get_first_child(GTK_WIDGET(preview->sheets)); sheet;
         sheet = gtk_widget_get_first_child(GTK_WIDGET(preview->sheets)))
        gtk_box_remove(preview->sheets, sheet);
    drawing_free(preview->drawing);
    preview->drawing = drawing;
    for (gsize i = 0; i < drawing->sheet_count; i++)
        add_sheet(preview, i);
}

GtkWidget *pin_preview_new(GtkWindow *parent, Drawing *drawing)
{
    PinPreview *preview = g_object_new(PIN_TYPE_PREVIEW, "transient-for", parent, NULL);
    pin_preview_set_drawing(preview, drawing);
    return GTK_WIDGET(preview);
}

static void pin_preview_finalize(GObject *object)
{
    drawing_free(PIN_PREVIEW(object)->drawing);
    G_OBJECT_CLASS(pin_preview_parent_class)->finalize(object);
}

static void pin_preview_class_init(PinPreviewClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = pin_preview_finalize;
    g_signal_new("print", PIN_TYPE_PREVIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/preview.ui");
    gtk_widget_class_bind_template_child(widget, PinPreview, sheets);
    gtk_widget_class_bind_template_child(widget, PinPreview, print);
    gtk_widget_class_bind_template_child(widget, PinPreview, both_units);
    gtk_widget_class_bind_template_child(widget, PinPreview, chained);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void pin_preview_init(PinPreview *preview)
{
    gtk_widget_init_template(GTK_WIDGET(preview));
    access_check(preview->both_units);
    access_check(preview->chained);
    g_signal_connect(preview->print, "clicked", G_CALLBACK(on_print), preview);
}

void pin_preview_offer_choices(PinPreview *preview, GActionGroup *prints)
{
    gtk_widget_insert_action_group(GTK_WIDGET(preview), "prints", prints);
    gtk_widget_set_visible(preview->both_units, TRUE);
    gtk_widget_set_visible(preview->chained, TRUE);
}
