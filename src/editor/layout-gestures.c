/* The hand on the layout: select, select by band, drag, turn by the handle, pan and zoom. */
#include "editor/layout-private.h"

#include "session/hit.h"

#define PULL_LEAST 4.0    /* pixels before a press becomes a pull */
#define HIT_REACH 5.0     /* pixels */
#define SNAP_REACH 8.0    /* pixels */
#define ZOOM_STEP 1.2     /* of one notch of the wheel */
#define HANDLE_REACH 11.0 /* pixels */

SnapSettings layout_snap_settings(PinLayout *layout)
{
    if (!layout->snap || layout->free_held)
        return (SnapSettings){.features = false};
    return (SnapSettings){length_to_mm(pin_layout_grid(layout)), SNAP_REACH / layout->scale, true,
                          &layout->guides};
}

static Session *session_of(PinLayout *layout)
{
    return pin_document_session(layout->document);
}

/* A nest has no place of its own: who presses it means its station. */
FeatureId layout_thing_at(PinLayout *layout, double x, double y)
{
    const Placed *placed = session_placed(session_of(layout));
    FeatureId id = hit_point(placed, layout->face, layout_to_face(layout, x, y),
                             HIT_REACH / layout->scale, ~layout->hidden);
    const Feature *feature = placed_find(placed, id);
    if (feature && !layout_shows(layout, feature))
        return ID_NONE;
    const Record *record = id == ID_NONE ? NULL : placed_record(placed, id);
    if (record && record->kind == RECORD_RECESS && record->recess.kind >= RECESS_NEST &&
        record->recess.station != ID_NONE)
        return record->recess.station;
    return id;
}

static GdkModifierType held_keys(GtkGesture *gesture)
{
    return gtk_event_controller_get_current_event_state(GTK_EVENT_CONTROLLER(gesture));
}

static gboolean adds(GdkModifierType keys)
{
    return (keys & (GDK_SHIFT_MASK | GDK_CONTROL_MASK)) != 0;
}

/* --- pressing --------------------------------------------------------------------------------- */

static void press_sign(PinLayout *layout, int sign)
{
    g_signal_emit_by_name(layout, "finding-pressed", sign);
}

static gboolean on_handle(PinLayout *layout, double x, double y)
{
    Point at, about;
    return layout_handle(layout, &at, &about) && point_distance(at, (Point){x, y}) <= HANDLE_REACH;
}

static void on_drag_begin(GtkGestureDrag *gesture, double x, double y, PinLayout *layout)
{
    layout->press_x = layout->pull_x = x;
    layout->press_y = layout->pull_y = y;
    layout->pull = PULL_NONE;
    layout->given_up = FALSE;
    gtk_widget_grab_focus(GTK_WIDGET(layout));
    if (!layout->document || pin_document_drag(layout->document))
        return;
    if (layout->space_held) {
        layout->pull = PULL_VIEW;
        layout->view_x = layout->x;
        layout->view_y = layout->y;
        return;
    }
    if (layout_measure_press(layout, x, y) || on_handle(layout, x, y))
        return;
    int sign = layout_sign_at(layout, x, y);
    if (sign >= 0) {
        press_sign(layout, sign);
        return;
    }
    GdkModifierType keys = held_keys(GTK_GESTURE(gesture));
    FeatureId id = layout_thing_at(layout, x, y);
    if (adds(keys)) {
        if (id != ID_NONE)
            pin_document_select_toggle(layout->document, id);
    } else if (id == ID_NONE || !pin_document_is_selected(layout->document, id)) {
        pin_document_select_one(layout->document, id);
    }
}

/* --- dragging things -------------------------------------------------------------------------- */

static Length rounded(Length value, Length step)
{
    return step ? (value + (value < 0 ? -step : step) / 2) / step * step : value;
}

/* Without snapping a place still has no more decimals than a drawing would give it. */
static Place readable(PinLayout *layout, Place at)
{
    Length step =
        pin_document_unit(layout->document) == UNIT_INCH ? LENGTH_INCH / 1000 : LENGTH_MM / 100;
    Place datum = {0, 0};
    if (layout->face == ID_TOP)
        datum = plate_datum(pin_document_plate(layout->document));
    return (Place){datum.x + rounded(at.x - datum.x, step),
                   datum.y + rounded(at.y - datum.y, step)};
}

static void begin_things(PinLayout *layout)
{
    FeatureId id = layout_thing_at(layout, layout->press_x, layout->press_y);
    const Feature *feature = placed_find(session_placed(session_of(layout)), id);
    if (!feature || !pin_document_is_selected(layout->document, id) ||
        !pin_document_drag_begin(layout->document)) {
        layout->pull = PULL_NONE;
        gtk_widget_queue_draw(GTK_WIDGET(layout));
        return;
    }
    layout->pull = PULL_THINGS;
    Point at = feature_at(feature);
    layout->grip = (Place){length_from_mm(at.x), length_from_mm(at.y)};
}

static void move_things(PinLayout *layout)
{
    Drag *drag = pin_document_drag(layout->document);
    if (!drag) {
        layout->pull = PULL_NONE;
        return;
    }
    Place at = {layout->grip.x + length_from_mm((layout->pull_x - layout->press_x) / layout->scale),
                layout->grip.y +
                    length_from_mm((layout->press_y - layout->pull_y) / layout->scale)};
    SnapSettings settings = layout_snap_settings(layout);
    layout->snap_shown = settings.features;
    if (settings.features) {
        uint32_t count;
        const FeatureId *ids = drag_ids(drag, &count);
        layout->snapped = snap_place(session_of(layout), layout->face, at, ids, count, &settings);
        at = layout->snapped.at;
    } else {
        at = readable(layout, at);
    }
    pin_document_drag_move(layout->document, at.x - layout->grip.x, at.y - layout->grip.y);
}

/* --- turning ---------------------------------------------------------------------------------- */

static double angle_from(Point about, PinLayout *layout, double x, double y)
{
    Point p = point_minus(layout_to_face(layout, x, y), about);
    return atan2(p.y, p.x) * 180 / G_PI;
}

static void begin_turn(PinLayout *layout)
{
    Point at, about;
    if (!layout_handle(layout, &at, &about) || !pin_document_drag_begin(layout->document)) {
        layout->pull = PULL_NONE;
        return;
    }
    FeatureId id = pin_document_selected_one(layout->document);
    const Feature *feature = placed_find(session_placed(session_of(layout)), id);
    /* A part turns about its own middle; the rest about theirs, which is the place they have. */
    Point middle = feature->kind == FEATURE_PART ? about : feature_at(feature);
    layout->turn_about = (Place){length_from_mm(middle.x), length_from_mm(middle.y)};
    layout->turn_from = angle_from(middle, layout, layout->press_x, layout->press_y);
    layout->turned = 0;
    layout->snap_shown = FALSE;
    layout->pull = PULL_TURN;
}

static void turn(PinLayout *layout)
{
    if (!pin_document_drag(layout->document)) {
        layout->pull = PULL_NONE;
        return;
    }
    Point about = {length_to_mm(layout->turn_about.x), length_to_mm(layout->turn_about.y)};
    double by = angle_from(about, layout, layout->pull_x, layout->pull_y) - layout->turn_from;
    FeatureId id = pin_document_selected_one(layout->document);
    const Record *record = plate_find(pin_document_plate(layout->document), id);
    double start = record ? angle_to_degrees(*record_rotation((Record *)record)) : 0;
    double step = layout->snap && !layout->free_held ? 5 : 0.1;
    layout->turned = round((start + by) / step) * step - start;
    pin_document_drag_turn(layout->document, layout->turn_about,
                           angle_from_degrees(layout->turned));
}

/* --- the pull --------------------------------------------------------------------------------- */

static void begin_pull(PinLayout *layout)
{
    if (on_handle(layout, layout->press_x, layout->press_y))
        begin_turn(layout);
    else if (layout_thing_at(layout, layout->press_x, layout->press_y) != ID_NONE)
        begin_things(layout);
    else if (layout_guide_press(layout, layout->press_x, layout->press_y))
        layout->pull = PULL_GUIDE;
    else
        layout->pull = PULL_BAND;
}

static void pan(PinLayout *layout, double dx, double dy)
{
    layout->x = layout->view_x + dx;
    layout->y = layout->view_y + dy;
    layout->fitted = FALSE;
    layout_view_changed(layout);
}

static void on_drag_update(GtkGestureDrag *gesture, double dx, double dy, PinLayout *layout)
{
    layout->pull_x = layout->press_x + dx;
    layout->pull_y = layout->press_y + dy;
    layout->free_held = (held_keys(GTK_GESTURE(gesture)) & GDK_ALT_MASK) != 0;
    if (!layout->document)
        return;
    if (layout->pull == PULL_NONE && !layout->given_up && hypot(dx, dy) >= PULL_LEAST &&
        !pin_document_drag(layout->document)) {
        gtk_gesture_set_state(GTK_GESTURE(gesture), GTK_EVENT_SEQUENCE_CLAIMED);
        begin_pull(layout);
        if (layout->pull == PULL_NONE) {
            /* Refused, and said so: not again for every further pixel. */
            gtk_gesture_set_state(GTK_GESTURE(gesture), GTK_EVENT_SEQUENCE_DENIED);
            return;
        }
    }
    switch (layout->pull) {
    case PULL_THINGS:
        move_things(layout);
        break;
    case PULL_TURN:
        turn(layout);
        break;
    case PULL_VIEW:
        pan(layout, dx, dy);
        break;
    case PULL_GUIDE:
        layout_guide_pull(layout, layout->pull_x, layout->pull_y);
        break;
    case PULL_BAND:
        gtk_widget_queue_draw(GTK_WIDGET(layout));
        break;
    case PULL_NONE:
        break;
    }
}

static void select_band(PinLayout *layout, gboolean add)
{
    Box band = BOX_EMPTY;
    band = box_with_point(band, layout_to_face(layout, layout->press_x, layout->press_y));
    band = box_with_point(band, layout_to_face(layout, layout->pull_x, layout->pull_y));
    GArray *found =
        hit_band(session_placed(session_of(layout)), layout->face, band, ~layout->hidden);
    if (add) {
        guint count;
        const FeatureId *ids = pin_document_selection(layout->document, &count);
        for (guint i = 0; i < count; i++) {
            gboolean there = FALSE;
            for (guint j = 0; j < found->len; j++)
                there = there || g_array_index(found, FeatureId, j) == ids[i];
            if (!there)
                g_array_append_val(found, ids[i]);
        }
    }
    pin_document_select(layout->document, (FeatureId *)(void *)found->data, found->len);
    g_array_unref(found);
}

static void on_drag_end(GtkGestureDrag *gesture, double dx, double dy, PinLayout *layout)
{
    Pull pull = layout->pull;
    layout->pull = PULL_NONE;
    layout->snap_shown = FALSE;
    if (pull == PULL_THINGS || pull == PULL_TURN)
        pin_document_drag_drop(layout->document);
    else if (pull == PULL_GUIDE)
        layout_guide_drop(layout, layout->pull_x, layout->pull_y);
    else if (pull == PULL_BAND)
        select_band(layout, adds(held_keys(GTK_GESTURE(gesture))));
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

static void on_drag_cancel(GtkGesture *gesture, GdkEventSequence *sequence, PinLayout *layout)
{
    if (layout->pull == PULL_THINGS || layout->pull == PULL_TURN)
        pin_document_drag_cancel(layout->document);
    layout->pull = PULL_NONE;
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

/* --- panning with the middle button ----------------------------------------------------------- */

static void on_pan_begin(GtkGestureDrag *gesture, double x, double y, PinLayout *layout)
{
    layout->view_x = layout->x;
    layout->view_y = layout->y;
    gtk_gesture_set_state(GTK_GESTURE(gesture), GTK_EVENT_SEQUENCE_CLAIMED);
    gtk_widget_set_cursor_from_name(GTK_WIDGET(layout), "grabbing");
}

static void on_pan_update(GtkGestureDrag *gesture, double dx, double dy, PinLayout *layout)
{
    pan(layout, dx, dy);
}

static void on_pan_end(GtkGestureDrag *gesture, double dx, double dy, PinLayout *layout)
{
    gtk_widget_set_cursor(GTK_WIDGET(layout), NULL);
}

/* --- the pointer, the wheel and keys ---------------------------------------------------------- */

static void pointed(PinLayout *layout)
{
    g_signal_emit_by_name(layout, "pointed");
}

static void on_motion(GtkEventControllerMotion *motion, double x, double y, PinLayout *layout)
{
    layout->pointer_x = x;
    layout->pointer_y = y;
    layout->pointer_inside = TRUE;
    if (layout->measuring)
        gtk_widget_queue_draw(GTK_WIDGET(layout));
    pointed(layout);
}

static void on_leave(GtkEventControllerMotion *motion, PinLayout *layout)
{
    layout->pointer_inside = FALSE;
    pointed(layout);
}

static gboolean on_scroll(GtkEventControllerScroll *scroll, double dx, double dy, PinLayout *layout)
{
    GtkWidget *widget = GTK_WIDGET(layout);
    double x = layout->pointer_inside ? layout->pointer_x : gtk_widget_get_width(widget) / 2.0;
    double y = layout->pointer_inside ? layout->pointer_y : gtk_widget_get_height(widget) / 2.0;
    layout_zoom_at(layout, x, y, pow(ZOOM_STEP, -dy));
    pointed(layout);
    return TRUE;
}

static gboolean on_key(GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
                       PinLayout *layout)
{
    if (key == GDK_KEY_space) {
        layout->space_held = TRUE;
        gtk_widget_set_cursor_from_name(GTK_WIDGET(layout), "grab");
        return TRUE;
    }
    if (key != GDK_KEY_Escape || !layout->document)
        return FALSE;
    if (pin_document_drag(layout->document)) {
        pin_document_drag_cancel(layout->document);
        layout->pull = PULL_NONE;
        layout->given_up = TRUE;
    } else if (!layout_measure_end(layout)) {
        pin_document_select(layout->document, NULL, 0);
    }
    return TRUE;
}

static void on_key_up(GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
                      PinLayout *layout)
{
    if (key != GDK_KEY_space)
        return;
    layout->space_held = FALSE;
    gtk_widget_set_cursor(GTK_WIDGET(layout), NULL);
}

static void add_drag(PinLayout *layout, guint button, GCallback begin, GCallback update,
                     GCallback end)
{
    GtkGesture *drag = gtk_gesture_drag_new();
    gtk_gesture_single_set_button(GTK_GESTURE_SINGLE(drag), button);
    g_signal_connect(drag, "drag-begin", begin, layout);
    g_signal_connect(drag, "drag-update", update, layout);
    g_signal_connect(drag, "drag-end", end, layout);
    if (button == GDK_BUTTON_PRIMARY)
        g_signal_connect(drag, "cancel", G_CALLBACK(on_drag_cancel), layout);
    gtk_widget_add_controller(GTK_WIDGET(layout), GTK_EVENT_CONTROLLER(drag));
}

void layout_add_gestures(PinLayout *layout)
{
    add_drag(layout, GDK_BUTTON_PRIMARY, G_CALLBACK(on_drag_begin), G_CALLBACK(on_drag_update),
             G_CALLBACK(on_drag_end));
    add_drag(layout, GDK_BUTTON_MIDDLE, G_CALLBACK(on_pan_begin), G_CALLBACK(on_pan_update),
             G_CALLBACK(on_pan_end));

    GtkEventController *motion = gtk_event_controller_motion_new();
    g_signal_connect(motion, "enter", G_CALLBACK(on_motion), layout);
    g_signal_connect(motion, "motion", G_CALLBACK(on_motion), layout);
    g_signal_connect(motion, "leave", G_CALLBACK(on_leave), layout);
    gtk_widget_add_controller(GTK_WIDGET(layout), motion);

    GtkEventController *scroll =
        gtk_event_controller_scroll_new(GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
    g_signal_connect(scroll, "scroll", G_CALLBACK(on_scroll), layout);
    gtk_widget_add_controller(GTK_WIDGET(layout), scroll);

    GtkEventController *keys = gtk_event_controller_key_new();
    g_signal_connect(keys, "key-pressed", G_CALLBACK(on_key), layout);
    g_signal_connect(keys, "key-released", G_CALLBACK(on_key_up), layout);
    gtk_widget_add_controller(GTK_WIDGET(layout), keys);
}
