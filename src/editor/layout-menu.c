/* The menu of what lies under the pointer. */
#include "editor/layout-private.h"

void pin_layout_set_menu(PinLayout *layout, GMenuModel *model)
{
    g_clear_pointer(&layout->menu, gtk_widget_unparent);
    layout->menu = gtk_popover_menu_new_from_model(model);
    gtk_popover_set_has_arrow(GTK_POPOVER(layout->menu), FALSE);
    gtk_widget_set_halign(layout->menu, GTK_ALIGN_START);
    gtk_widget_set_parent(layout->menu, GTK_WIDGET(layout));
}

static void show_at(PinLayout *layout, double x, double y)
{
    if (!layout->menu || !layout->document)
        return;
    gtk_popover_set_pointing_to(GTK_POPOVER(layout->menu), &(GdkRectangle){(int)x, (int)y, 1, 1});
    gtk_popover_popup(GTK_POPOVER(layout->menu));
}

static void on_pressed(GtkGestureClick *click, int presses, double x, double y, PinLayout *layout)
{
    if (!layout->document || pin_document_drag(layout->document))
        return;
    gtk_widget_grab_focus(GTK_WIDGET(layout));
    FeatureId id = layout_thing_at(layout, x, y);
    if (id == ID_NONE || !pin_document_is_selected(layout->document, id))
        pin_document_select_one(layout->document, id);
    show_at(layout, x, y);
}

/* By the keyboard it opens at what is selected. */
static void on_menu_key(GtkWidget *widget, const char *name, GVariant *parameter)
{
    PinLayout *layout = PIN_LAYOUT(widget);
    double x = gtk_widget_get_width(widget) / 2.0, y = gtk_widget_get_height(widget) / 2.0;
    const Feature *feature =
        layout->document ? placed_find(session_placed(pin_document_session(layout->document)),
                                       pin_document_selected_one(layout->document))
                         : NULL;
    if (feature) {
        Point at = layout_from_face(layout, feature_at(feature));
        x = CLAMP(at.x, 0, 2 * x);
        y = CLAMP(at.y, 0, 2 * y);
    }
    show_at(layout, x, y);
}

void layout_add_menu_class(GtkWidgetClass *class)
{
    gtk_widget_class_install_action(class, "layout.menu", NULL, on_menu_key);
    gtk_widget_class_add_binding_action(class, GDK_KEY_Menu, 0, "layout.menu", NULL);
    gtk_widget_class_add_binding_action(class, GDK_KEY_F10, GDK_SHIFT_MASK, "layout.menu", NULL);
}

void layout_add_menu(PinLayout *layout)
{
    GtkGesture *click = gtk_gesture_click_new();
    gtk_gesture_single_set_button(GTK_GESTURE_SINGLE(click), GDK_BUTTON_SECONDARY);
    g_signal_connect(click, "pressed", G_CALLBACK(on_pressed), layout);
    gtk_widget_add_controller(GTK_WIDGET(layout), GTK_EVENT_CONTROLLER(click));
}
