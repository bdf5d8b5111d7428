#include "editor/readout.h"

#include "editor/access.h"
#include "editor/intl.h"
#include "editor/layout-feature.h"
#include "editor/speech.h"

struct _PinReadout {
    GtkWidget parent_instance;
    GtkInscription *pointer; /* which never asks for another size, however fast it changes */
    GtkInscription *selected;
    GtkLabel *zoom;
    PinDocument *document;
    PinLayout *layout;
    gulong handlers[3];
    gulong pointed, viewed;
    gboolean both;
};

G_DEFINE_FINAL_TYPE(PinReadout, pin_readout, GTK_TYPE_WIDGET)

static void append_length(PinReadout *readout, GString *text, const char *name, Length length)
{
    char words[LENGTH_PEOPLE_TEXT];
    Unit unit = pin_document_unit(readout->document);
    if (readout->both)
        pin_length_text_both(length, unit, words);
    else
        pin_length_text_with_unit(length, unit, words);
    g_string_append_printf(text, "%s %s", name, words);
}

static void append_place(PinReadout *readout, GString *text, Place at)
{
    Place datum = {0, 0};
    if (pin_layout_face(readout->layout) == ID_TOP)
        datum = plate_datum(pin_document_plate(readout->document));
    append_length(readout, text, "X", at.x - datum.x);
    g_string_append(text, "   ");
    append_length(readout, text, "Y", at.y - datum.y);
}

static void show_pointer(PinReadout *readout)
{
    GString *text = g_string_new(NULL);
    Place at;
    if (pin_layout_pointer(readout->layout, &at))
        append_place(readout, text, at);
    gtk_inscription_set_text(readout->pointer, text->str);
    g_string_free(text, TRUE);
    char *zoom = g_strdup_printf("%.0f %%", pin_layout_zoom_level(readout->layout) * 100);
    gtk_label_set_label(readout->zoom, zoom);
    g_free(zoom);
}

static void append_size(PinReadout *readout, GString *text, Box box)
{
    g_string_append(text, "   ");
    append_length(readout, text, "", length_from_mm(box.x1 - box.x0));
    g_string_append(text, " ×");
    append_length(readout, text, "", length_from_mm(box.y1 - box.y0));
}

static void show_one(PinReadout *readout, GString *text, FeatureId id)
{
    const Feature *feature =
        placed_find(session_shown(pin_document_session(readout->document)), id);
    char *name = feature_words(readout->document, id);
    g_string_append_printf(text, "%s   ", name);
    if (feature) {
        Point at = feature_at(feature);
        append_place(readout, text, (Place){length_from_mm(at.x), length_from_mm(at.y)});
    }
    g_free(name);
}

static void show_selected(PinReadout *readout)
{
    const Placed *placed = session_shown(pin_document_session(readout->document));
    GString *text = g_string_new(NULL);
    guint count;
    const FeatureId *ids = pin_document_selection(readout->document, &count);
    if (count == 1) {
        show_one(readout, text, ids[0]);
    } else if (count > 1) {
        Box box = BOX_EMPTY;
        for (guint i = 0; i < count; i++) {
            const Feature *feature = placed_find(placed, ids[i]);
            if (feature)
                box = box_union(box, feature->box);
        }
        g_string_append_printf(text, _("%u things"), count);
        if (!box_is_empty(box))
            append_size(readout, text, box);
    }
    gtk_inscription_set_text(readout->selected, text->str);
    /* An inscription tells a screen reader nothing by itself. */
    if (!pin_document_drag(readout->document))
        access_name(GTK_WIDGET(readout->selected), text->str);
    g_string_free(text, TRUE);
}

static void on_document(PinDocument *document, PinReadout *readout)
{
    show_selected(readout);
    show_pointer(readout);
}

static void on_pointed(PinLayout *layout, PinReadout *readout)
{
    if (readout->document)
        show_pointer(readout);
}

void pin_readout_set_both_units(PinReadout *readout, gboolean both)
{
    readout->both = both;
    if (readout->document)
        on_document(readout->document, readout);
}

void pin_readout_set_document(PinReadout *readout, PinDocument *document, PinLayout *layout)
{
    if (readout->document) {
        for (gsize i = 0; i < G_N_ELEMENTS(readout->handlers); i++)
            g_clear_signal_handler(&readout->handlers[i], readout->document);
        g_clear_signal_handler(&readout->pointed, readout->layout);
        g_clear_signal_handler(&readout->viewed, readout->layout);
        g_clear_object(&readout->document);
        g_clear_object(&readout->layout);
    }
    if (!document)
        return;
    readout->document = g_object_ref(document);
    readout->layout = g_object_ref(layout);
    readout->handlers[0] = g_signal_connect(document, "changed", G_CALLBACK(on_document), readout);
    readout->handlers[1] = g_signal_connect(document, "tried", G_CALLBACK(on_document), readout);
    readout->handlers[2] =
        g_signal_connect(document, "selection-changed", G_CALLBACK(on_document), readout);
    readout->pointed = g_signal_connect(layout, "pointed", G_CALLBACK(on_pointed), readout);
    readout->viewed = g_signal_connect(layout, "viewed", G_CALLBACK(on_pointed), readout);
    on_document(document, readout);
}

static void pin_readout_dispose(GObject *object)
{
    GtkWidget *child;
    pin_readout_set_document(PIN_READOUT(object), NULL, NULL);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_readout_parent_class)->dispose(object);
}

static void pin_readout_class_init(PinReadoutClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_readout_dispose;
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/readout.ui");
    gtk_widget_class_bind_template_child(widget, PinReadout, pointer);
    gtk_widget_class_bind_template_child(widget, PinReadout, selected);
    gtk_widget_class_bind_template_child(widget, PinReadout, zoom);
    gtk_widget_class_set_css_name(widget, "readout");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_readout_init(PinReadout *readout)
{
    readout->both = TRUE;
    gtk_widget_init_template(GTK_WIDGET(readout));
    /* Figures are read from the left in every language. */
    gtk_widget_set_direction(GTK_WIDGET(readout->pointer), GTK_TEXT_DIR_LTR);
    gtk_widget_set_direction(GTK_WIDGET(readout->selected), GTK_TEXT_DIR_LTR);
    gtk_widget_set_direction(GTK_WIDGET(readout->zoom), GTK_TEXT_DIR_LTR);
}
