#include "editor/layout-feature.h"

#include "checks/sentence.h"
#include "editor/intl.h"
#include "editor/speech.h"

struct _PinLayoutFeature {
    GtkWidget parent_instance;
    PinDocument *document; /* borrowed: the layout lets go of its features first */
    FeatureId id;
    char *name;
};

G_DEFINE_FINAL_TYPE(PinLayoutFeature, pin_layout_feature, GTK_TYPE_WIDGET)

static void on_select(GtkWidget *widget, const char *name, GVariant *parameter)
{
    PinLayoutFeature *feature = PIN_LAYOUT_FEATURE(widget);
    pin_document_select_one(feature->document, feature->id);
}

static void on_toggle(GtkWidget *widget, const char *name, GVariant *parameter)
{
    PinLayoutFeature *feature = PIN_LAYOUT_FEATURE(widget);
    pin_document_select_toggle(feature->document, feature->id);
}

static void pin_layout_feature_finalize(GObject *object)
{
    g_free(PIN_LAYOUT_FEATURE(object)->name);
    G_OBJECT_CLASS(pin_layout_feature_parent_class)->finalize(object);
}

static void pin_layout_feature_class_init(PinLayoutFeatureClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = pin_layout_feature_finalize;
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_OPTION);
    gtk_widget_class_install_action(widget, "feature.select", NULL, on_select);
    gtk_widget_class_install_action(widget, "feature.select-also", NULL, on_toggle);
}

static void pin_layout_feature_init(PinLayoutFeature *feature)
{
    gtk_widget_set_can_target(GTK_WIDGET(feature), FALSE);
}

GtkWidget *pin_layout_feature_new(PinDocument *document, FeatureId id)
{
    PinLayoutFeature *feature = g_object_new(PIN_TYPE_LAYOUT_FEATURE, NULL);
    feature->document = document;
    feature->id = id;
    pin_layout_feature_update(feature);
    return GTK_WIDGET(feature);
}

FeatureId pin_layout_feature_id(PinLayoutFeature *feature)
{
    return feature->id;
}

char *feature_words(PinDocument *document, FeatureId id)
{
    char name[120];
    feature_name_said(session_placed(pin_document_session(document)), id, pin_speech(), name,
                      sizeof name);
    return g_strdup(name);
}

char *feature_place_words(PinDocument *document, FeatureId id)
{
    const Feature *feature = placed_find(session_placed(pin_document_session(document)), id);
    if (!feature)
        return g_strdup("");
    Place datum = {0, 0};
    if (feature->face == ID_TOP)
        datum = plate_datum(pin_document_plate(document));
    Unit unit = pin_document_unit(document);
    char x[LENGTH_PEOPLE_TEXT], y[LENGTH_PEOPLE_TEXT];
    Point at = feature_at(feature);
    pin_length_text(length_from_mm(at.x) - datum.x, unit, x);
    pin_length_text(length_from_mm(at.y) - datum.y, unit, y);
    return g_strdup_printf("X %s  Y %s", x, y);
}

void pin_layout_feature_update(PinLayoutFeature *feature)
{
    char *name = feature_words(feature->document, feature->id);
    char *place = feature_place_words(feature->document, feature->id);
    char *both = g_strconcat(name, place, NULL);
    if (g_strcmp0(both, feature->name) != 0) {
        g_free(feature->name);
        feature->name = g_strdup(both);
        gtk_accessible_update_property(GTK_ACCESSIBLE(feature), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                       GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, place, -1);
    }
    g_free(both);
    g_free(place);
    g_free(name);
}
