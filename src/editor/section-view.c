#include "editor/section-view.h"

#include "drawing/section.h"
#include "editor/intl.h"
#include "editor/layout-section.h"
#include "editor/palette.h"
#include "editor/speech.h"

#define PIXELS (96.0 / 25.4) /* of one millimetre of the drawing's own sheet */
#define MARGIN 14.0          /* pixels */

struct _PinSectionView {
    GtkWidget parent_instance;
    GtkLabel *heading, *size;
    GtkDrawingArea *area;
    PinDocument *document;
    PinLayout *layout;
    gulong handlers[3];
    Lettering *lettering;
    Drawing *drawing;
};

G_DEFINE_FINAL_TYPE(PinSectionView, pin_section_view, GTK_TYPE_WIDGET)

static DrawingSource source_of(PinSectionView *view)
{
    Session *session = pin_document_session(view->document);
    return (DrawingSource){session_plate(session), session_shown(session)};
}

/* The whole cut, as large as there is room. */
static ViewMap fitting_map(const Settings *settings, double length, double width, double height)
{
    double thickness = length_to_mm(settings->stock.thickness);
    double scale = fmin((width - 2 * MARGIN) / length, (height - 2 * MARGIN) / thickness) / PIXELS;
    return (ViewMap){{-scale * length / 2, scale * thickness / 2}, scale};
}

static void draw(GtkDrawingArea *area, cairo_t *cairo, int width, int height, gpointer data)
{
    PinSectionView *view = data;
    SectionLine line;
    if (!view->document || !view->drawing || !pin_layout_section(view->layout, &line))
        return;
    DrawingSource source = source_of(view);
    if (!section_clip(&source, &line))
        return;
    Screen screen = {palette_is_dark(GTK_WIDGET(area)), FALSE};
    PlayStyle style = palette_screen_style(&screen);
    ViewMap map = fitting_map(plate_settings(source.plate), point_distance(line.from, line.to),
                              width, height);
    if (!(map.scale > 0))
        return;
    drawing_clear(view->drawing);
    drawing_begin_sheet(view->drawing, 0, 0, "");
    section_draw(view->drawing, &source, &line, map);
    cairo_translate(cairo, width / 2.0, height / 2.0);
    cairo_scale(cairo, PIXELS, PIXELS);
    play_cairo_marks(view->drawing, 0, view->drawing->mark_count, 0, &style, cairo);
}

static void update(PinSectionView *view)
{
    SectionLine line;
    gboolean on = pin_layout_section(view->layout, &line);
    gtk_widget_set_visible(GTK_WIDGET(view), on);
    if (!on)
        return;
    DrawingSource source = source_of(view);
    char length[LENGTH_PEOPLE_TEXT];
    char *text;
    if (section_clip(&source, &line)) {
        pin_length_text_with_unit(length_from_mm(point_distance(line.from, line.to)),
                                  pin_document_unit(view->document), length);
        text = g_strdup_printf(_("%s through the plate"), length);
    } else {
        text = g_strdup(_("The line does not meet the plate"));
    }
    gtk_label_set_label(view->size, text);
    gtk_accessible_update_property(GTK_ACCESSIBLE(view->area), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                   text, -1);
    gtk_widget_queue_draw(GTK_WIDGET(view->area));
    g_free(text);
}

static void on_changed(gpointer object, PinSectionView *view)
{
    update(view);
}

void pin_section_view_set_document(PinSectionView *view, PinDocument *document, PinLayout *layout)
{
    if (view->document) {
        g_clear_signal_handler(&view->handlers[0], view->document);
        g_clear_signal_handler(&view->handlers[1], view->document);
        g_clear_signal_handler(&view->handlers[2], view->layout);
        g_clear_object(&view->document);
        g_clear_object(&view->layout);
    }
    if (!document)
        return;
    view->document = g_object_ref(document);
    view->layout = g_object_ref(layout);
    view->handlers[0] = g_signal_connect(document, "changed", G_CALLBACK(on_changed), view);
    view->handlers[1] = g_signal_connect(document, "tried", G_CALLBACK(on_changed), view);
    view->handlers[2] = g_signal_connect(layout, "section-changed", G_CALLBACK(on_changed), view);
    update(view);
}

static void pin_section_view_dispose(GObject *object)
{
    GtkWidget *child;
    pin_section_view_set_document(PIN_SECTION_VIEW(object), NULL, NULL);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_section_view_parent_class)->dispose(object);
}

static void pin_section_view_finalize(GObject *object)
{
    PinSectionView *view = PIN_SECTION_VIEW(object);
    drawing_free(view->drawing);
    lettering_unref(view->lettering);
    G_OBJECT_CLASS(pin_section_view_parent_class)->finalize(object);
}

static void pin_section_view_class_init(PinSectionViewClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_section_view_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_section_view_finalize;
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/section-view.ui");
    gtk_widget_class_bind_template_child(widget, PinSectionView, heading);
    gtk_widget_class_bind_template_child(widget, PinSectionView, size);
    gtk_widget_class_bind_template_child(widget, PinSectionView, area);
    gtk_widget_class_set_css_name(widget, "sectionview");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_section_view_init(PinSectionView *view)
{
    gtk_widget_init_template(GTK_WIDGET(view));
    view->lettering = lettering_new(NULL);
    if (view->lettering)
        view->drawing = drawing_new(view->lettering);
    gtk_drawing_area_set_draw_func(view->area, draw, view, NULL);
}
