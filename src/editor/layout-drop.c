/* Things dragged onto the layout from a tray: a ghost follows the pointer, with the findings it
 * would have, and is on the plate once it is let go. */
#include "editor/layout-private.h"

#include "editor/refit-bar.h"

static PinTrayItem *item_of(GtkDropTarget *target)
{
    const GValue *value = gtk_drop_target_get_value(target);
    return value && G_VALUE_HOLDS(value, PIN_TYPE_TRAY_ITEM) ? g_value_get_object(value) : NULL;
}

static void begin_ghost(PinLayout *layout, PinTrayItem *item, Place at)
{
    Edit edit = EDIT_EMPTY;
    Error error;
    if (!pin_tray_item_make(item, pin_document_session(layout->document), layout->face, at, &edit,
                            &error)) {
        session_give_back_ids(pin_document_session(layout->document), &edit);
        edit_clear(&edit);
        pin_document_refuse(layout->document, &error);
        return;
    }
    pin_document_drag_begin_ghost(layout->document, &edit, at);
}

/* What belongs to a station is shown on the one under the pointer, and made anew on the next. */
static void show_on_station(PinLayout *layout, PinTrayItem *item, Place at)
{
    FeatureId station =
        pin_tray_item_station(item, pin_document_session(layout->document), layout->face, at);
    if (station == layout->ghost_station)
        return;
    layout->ghost_station = station;
    pin_document_drag_cancel(layout->document);
    if (station != ID_NONE)
        begin_ghost(layout, item, at);
    g_signal_emit_by_name(layout, "pointed");
}

static void move_ghost(PinLayout *layout, PinTrayItem *item, double x, double y)
{
    Place at = layout_place(layout, x, y);
    if (pin_tray_item_needs_station(item)) {
        show_on_station(layout, item, at);
        return;
    }
    if (!pin_document_drag(layout->document))
        begin_ghost(layout, item, at);
    Drag *drag = pin_document_drag(layout->document);
    if (!drag)
        return;
    layout->pointer_x = x;
    layout->pointer_y = y;
    layout->pointer_inside = TRUE;
    SnapSettings settings = layout_snap_settings(layout);
    layout->snap_shown = settings.features;
    if (settings.features) {
        uint32_t count;
        const FeatureId *ids = drag_ids(drag, &count);
        layout->snapped = snap_place(pin_document_session(layout->document), layout->face, at, ids,
                                     count, &settings);
        at = layout->snapped.at;
    }
    pin_document_drag_move_to(layout->document, at);
    g_signal_emit_by_name(layout, "pointed");
}

static GdkDragAction on_drop_motion(GtkDropTarget *target, double x, double y, PinLayout *layout)
{
    PinTrayItem *item = item_of(target);
    GdkModifierType keys =
        gtk_event_controller_get_current_event_state(GTK_EVENT_CONTROLLER(target));
    layout->free_held = (keys & GDK_ALT_MASK) != 0;
    if (item && layout->document)
        move_ghost(layout, item, x, y);
    return GDK_ACTION_COPY;
}

static void on_drop_leave(GtkDropTarget *target, PinLayout *layout)
{
    layout->snap_shown = FALSE;
    layout->ghost_station = ID_NONE;
    if (layout->document)
        pin_document_drag_cancel(layout->document);
}

static gboolean on_drop(GtkDropTarget *target, const GValue *value, double x, double y,
                        PinLayout *layout)
{
    PinTrayItem *item = g_value_get_object(value);
    if (!item || !layout->document)
        return FALSE;
    move_ghost(layout, item, x, y);
    RefitDrop drop = {item, layout->face, layout_place(layout, x, y)};
    if (layout->snap_shown)
        drop.at = layout->snapped.at;
    layout->snap_shown = FALSE;
    if (pin_tray_item_needs_station(item) && layout->ghost_station == ID_NONE)
        begin_ghost(layout, item, drop.at); /* says why it can't be */
    layout->ghost_station = ID_NONE;
    if (refit_take_drop(PIN_WINDOW(gtk_widget_get_root(GTK_WIDGET(layout))), &drop))
        return TRUE;
    gtk_widget_grab_focus(GTK_WIDGET(layout));
    return pin_document_drag_drop(layout->document);
}

void layout_add_drop_target(PinLayout *layout)
{
    GtkDropTarget *target = gtk_drop_target_new(PIN_TYPE_TRAY_ITEM, GDK_ACTION_COPY);
    gtk_drop_target_set_preload(target, TRUE);
    g_signal_connect(target, "enter", G_CALLBACK(on_drop_motion), layout);
    g_signal_connect(target, "motion", G_CALLBACK(on_drop_motion), layout);
    g_signal_connect(target, "leave", G_CALLBACK(on_drop_leave), layout);
    g_signal_connect(target, "drop", G_CALLBACK(on_drop), layout);
    gtk_widget_add_controller(GTK_WIDGET(layout), GTK_EVENT_CONTROLLER(target));
}
