#include "editor/view-bar.h"

#include "editor/face-bar.h"
#include "editor/intl.h"
#include "editor/operation-step.h"

struct _PinViewBar {
    GtkWidget parent_instance;
    PinFaceBar *faces;
    PinOperationStep *operations;
};

G_DEFINE_FINAL_TYPE(PinViewBar, pin_view_bar, GTK_TYPE_WIDGET)

void pin_view_bar_set_document(PinViewBar *bar, PinDocument *document, PinLayout *layout)
{
    pin_face_bar_set_document(bar->faces, document, layout);
    gtk_widget_set_visible(GTK_WIDGET(bar->faces), document != NULL);
    pin_operation_step_set_document(bar->operations, document, layout);
}

FeatureId pin_view_bar_next_face(PinViewBar *bar, int by)
{
    return pin_face_bar_next(bar->faces, by);
}

void pin_view_bar_step(PinViewBar *bar, int by)
{
    pin_operation_step_go(bar->operations, by);
}

static void pin_view_bar_dispose(GObject *object)
{
    GtkWidget *child;
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_view_bar_parent_class)->dispose(object);
}

static void pin_view_bar_class_init(PinViewBarClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_view_bar_dispose;
    g_type_ensure(PIN_TYPE_FACE_BAR);
    g_type_ensure(PIN_TYPE_OPERATION_STEP);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/view-bar.ui");
    gtk_widget_class_bind_template_child(widget, PinViewBar, faces);
    gtk_widget_class_bind_template_child(widget, PinViewBar, operations);
    gtk_widget_class_set_css_name(widget, "viewbar");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_view_bar_init(PinViewBar *bar)
{
    gtk_widget_init_template(GTK_WIDGET(bar));
}
