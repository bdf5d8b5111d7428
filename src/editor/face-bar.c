#include "editor/face-bar.h"

#include "editor/intl.h"
#include "editor/speech.h"

struct _PinFaceBar {
    GtkWidget parent_instance;
    GtkBox *buttons;
    PinDocument *document;
    PinLayout *layout;
    gulong handlers[3];
    char *shown; /* the faces and names that there are buttons for */
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(PinFaceBar, pin_face_bar, GTK_TYPE_WIDGET)

#define NAME_MOST 18 /* characters of a face's name on its button */

static FeatureId button_face(GtkWidget *button)
{
    return GPOINTER_TO_UINT(g_object_get_data(G_OBJECT(button), "face"));
}

static void on_clicked(GtkButton *button, PinFaceBar *bar)
{
    if (!bar->updating)
        pin_layout_set_face(bar->layout, button_face(GTK_WIDGET(button)));
}

static char *face_words(const Record *record)
{
    const char *name = record->face.name ? record->face.name : "";
    char text[LENGTH_TEXT];
    if (record->face.kind == FACE_TOP)
        return g_strdup(_("Top, seen from above"));
    pin_angle_write(record->face.angle, text);
    return g_strdup_printf(_("%s, %s° below the top, seen square on"), name, text);
}

static GtkWidget *add_button(PinFaceBar *bar, const Record *record, GtkWidget *first)
{
    const char *name = record->face.kind == FACE_TOP ? _("Top") : record->face.name;
    GtkWidget *label = gtk_label_new(name ? name : "");
    gtk_label_set_ellipsize(GTK_LABEL(label), PANGO_ELLIPSIZE_END);
    gtk_label_set_max_width_chars(GTK_LABEL(label), NAME_MOST);
    GtkWidget *button = gtk_toggle_button_new();
    gtk_button_set_child(GTK_BUTTON(button), label);
    char *words = face_words(record);
    gtk_widget_set_tooltip_text(button, words);
    gtk_accessible_update_property(GTK_ACCESSIBLE(button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   name ? name : words, -1);
    g_free(words);
    if (first)
        gtk_toggle_button_set_group(GTK_TOGGLE_BUTTON(button), GTK_TOGGLE_BUTTON(first));
    g_object_set_data(G_OBJECT(button), "face", GUINT_TO_POINTER(record->id));
    g_signal_connect(button, "clicked", G_CALLBACK(on_clicked), bar);
    gtk_box_append(bar->buttons, button);
    return first ? first : button;
}

static char *faces_now(PinFaceBar *bar)
{
    const Plate *plate = pin_document_plate(bar->document);
    GString *faces = g_string_new(NULL);
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_FACE)
            g_string_append_printf(faces, "%u %" G_GINT64_FORMAT " %s\n", record->id,
                                   (gint64)record->face.angle,
                                   record->face.name ? record->face.name : "");
    }
    return g_string_free(faces, FALSE);
}

static void build(PinFaceBar *bar)
{
    const Plate *plate = pin_document_plate(bar->document);
    GtkWidget *child, *first = NULL;
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(bar->buttons))))
        gtk_box_remove(bar->buttons, child);
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (plate_at(plate, i)->kind == RECORD_FACE)
            first = add_button(bar, plate_at(plate, i), first);
}

static void update(PinFaceBar *bar)
{
    char *faces = faces_now(bar);
    bar->updating = TRUE;
    if (g_strcmp0(faces, bar->shown) != 0)
        build(bar);
    g_free(bar->shown);
    bar->shown = faces;
    GtkWidget *child = gtk_widget_get_first_child(GTK_WIDGET(bar->buttons));
    for (; child; child = gtk_widget_get_next_sibling(child))
        if (button_face(child) == pin_layout_face(bar->layout))
            gtk_toggle_button_set_active(GTK_TOGGLE_BUTTON(child), TRUE);
    bar->updating = FALSE;
}

FeatureId pin_face_bar_next(PinFaceBar *bar, int by)
{
    FeatureId shown = pin_layout_face(bar->layout);
    GtkWidget *box = GTK_WIDGET(bar->buttons), *child = gtk_widget_get_first_child(box);
    while (child && button_face(child) != shown)
        child = gtk_widget_get_next_sibling(child);
    if (!child)
        return ID_TOP;
    GtkWidget *next =
        by > 0 ? gtk_widget_get_next_sibling(child) : gtk_widget_get_prev_sibling(child);
    if (!next)
        next = by > 0 ? gtk_widget_get_first_child(box) : gtk_widget_get_last_child(box);
    return button_face(next);
}

static void on_changed(gpointer object, PinFaceBar *bar)
{
    update(bar);
}

/* What is selected from a list may lie on another face. */
static void on_selection(PinDocument *document, PinFaceBar *bar)
{
    const Feature *feature = placed_find(session_placed(pin_document_session(document)),
                                         pin_document_selected_one(document));
    if (feature && feature->face != pin_layout_face(bar->layout))
        pin_layout_set_face(bar->layout, feature->face);
}

void pin_face_bar_set_document(PinFaceBar *bar, PinDocument *document, PinLayout *layout)
{
    if (bar->document) {
        g_clear_signal_handler(&bar->handlers[0], bar->document);
        g_clear_signal_handler(&bar->handlers[1], bar->document);
        g_clear_signal_handler(&bar->handlers[2], bar->layout);
        g_clear_object(&bar->document);
        g_clear_object(&bar->layout);
    }
    if (!document)
        return;
    bar->document = g_object_ref(document);
    bar->layout = g_object_ref(layout);
    bar->handlers[0] = g_signal_connect(document, "changed", G_CALLBACK(on_changed), bar);
    bar->handlers[1] =
        g_signal_connect(document, "selection-changed", G_CALLBACK(on_selection), bar);
    bar->handlers[2] = g_signal_connect(layout, "face-changed", G_CALLBACK(on_changed), bar);
    update(bar);
}

static void pin_face_bar_dispose(GObject *object)
{
    GtkWidget *child;
    pin_face_bar_set_document(PIN_FACE_BAR(object), NULL, NULL);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_face_bar_parent_class)->dispose(object);
}

static void pin_face_bar_finalize(GObject *object)
{
    g_free(PIN_FACE_BAR(object)->shown);
    G_OBJECT_CLASS(pin_face_bar_parent_class)->finalize(object);
}

static void pin_face_bar_class_init(PinFaceBarClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_face_bar_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_face_bar_finalize;
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/face-bar.ui");
    gtk_widget_class_bind_template_child(widget, PinFaceBar, buttons);
    gtk_widget_class_set_css_name(widget, "facebar");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_face_bar_init(PinFaceBar *bar)
{
    gtk_widget_init_template(GTK_WIDGET(bar));
}
