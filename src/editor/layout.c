#include "editor/layout-private.h"

#include "editor/intl.h"
#include "editor/layout-section.h"
#include "editor/preferences.h"
#include "editor/speech.h"
#include "trade/typed.h"

G_DEFINE_FINAL_TYPE(PinLayout, pin_layout, GTK_TYPE_WIDGET)

#define FIT_MARGIN 32 /* pixels round the plate */
#define SCALE_LEAST 0.05
#define SCALE_MOST 2000.0

/* --- where things are ------------------------------------------------------------------------- */

Point layout_to_face(PinLayout *layout, double x, double y)
{
    return (Point){(x - layout->x) / layout->scale, (layout->y - y) / layout->scale};
}

Point layout_from_face(PinLayout *layout, Point p)
{
    return (Point){layout->x + p.x * layout->scale, layout->y - p.y * layout->scale};
}

Place layout_place(PinLayout *layout, double x, double y)
{
    Point p = layout_to_face(layout, x, y);
    return (Place){length_from_mm(p.x), length_from_mm(p.y)};
}

const Frame *layout_frame(PinLayout *layout)
{
    if (!layout->document)
        return NULL;
    return placed_frame(session_placed(pin_document_session(layout->document)), layout->face);
}

static Box face_box(PinLayout *layout)
{
    const Frame *frame = layout_frame(layout);
    return frame ? shape_box(&frame->extent) : (Box){0, 0, 100, 100};
}

/* Whole pixels, so that nothing is drawn between two of them. */
static void round_origin(PinLayout *layout)
{
    layout->x = round(layout->x);
    layout->y = round(layout->y);
}

void layout_view_changed(PinLayout *layout)
{
    round_origin(layout);
    layout_forget_signs(layout);
    gtk_widget_queue_allocate(GTK_WIDGET(layout));
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

static void fit_now(PinLayout *layout, int width, int height)
{
    Box box = face_box(layout);
    double across = MAX(width - 2 * FIT_MARGIN, 20), up = MAX(height - 2 * FIT_MARGIN, 20);
    layout->scale = CLAMP(MIN(across / MAX(box.x1 - box.x0, 1e-3), up / MAX(box.y1 - box.y0, 1e-3)),
                          SCALE_LEAST, SCALE_MOST);
    layout->x = width / 2.0 - layout->scale * (box.x0 + box.x1) / 2;
    layout->y = height / 2.0 + layout->scale * (box.y0 + box.y1) / 2;
    round_origin(layout);
}

void layout_zoom_at(PinLayout *layout, double x, double y, double factor)
{
    Point still = layout_to_face(layout, x, y);
    layout->scale = CLAMP(layout->scale * factor, SCALE_LEAST, SCALE_MOST);
    layout->x = x - still.x * layout->scale;
    layout->y = y + still.y * layout->scale;
    layout->fitted = FALSE;
    layout_view_changed(layout);
}

/* --- what others ask -------------------------------------------------------------------------- */

gboolean pin_layout_pointer(PinLayout *layout, Place *at)
{
    *at = layout_place(layout, layout->pointer_x, layout->pointer_y);
    return layout->pointer_inside && layout->document;
}

Place pin_layout_middle(PinLayout *layout)
{
    GtkWidget *widget = GTK_WIDGET(layout);
    Place middle = layout_place(layout, gtk_widget_get_width(widget) / 2.0,
                                gtk_widget_get_height(widget) / 2.0);
    Length grid = pin_layout_grid(layout);
    if (grid > 0) {
        middle.x = (middle.x + (middle.x < 0 ? -grid : grid) / 2) / grid * grid;
        middle.y = (middle.y + (middle.y < 0 ? -grid : grid) / 2) / grid * grid;
    }
    return middle;
}

FeatureId pin_layout_face(PinLayout *layout)
{
    return layout->face;
}

/* Only what is seen stays selected. */
static void select_seen(PinLayout *layout)
{
    const Placed *placed = session_placed(pin_document_session(layout->document));
    GArray *seen = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    guint count;
    const FeatureId *ids = pin_document_selection(layout->document, &count);
    for (guint i = 0; i < count; i++) {
        const Feature *feature = placed_find(placed, ids[i]);
        if (feature && feature->face == layout->face)
            g_array_append_val(seen, ids[i]);
    }
    pin_document_select(layout->document, (FeatureId *)(void *)seen->data, seen->len);
    g_array_unref(seen);
}

void pin_layout_set_face(PinLayout *layout, FeatureId face)
{
    if (!layout->document || face == layout->face)
        return;
    pin_document_drag_cancel(layout->document);
    layout->face = face;
    if (!layout_frame(layout))
        layout->face = ID_TOP;
    layout->fitted = TRUE;
    layout->pointed_out = -1;
    /* At once, since a place on it may be asked for next. */
    if (gtk_widget_get_width(GTK_WIDGET(layout)) > 0)
        fit_now(layout, gtk_widget_get_width(GTK_WIDGET(layout)),
                gtk_widget_get_height(GTK_WIDGET(layout)));
    layout_forget(layout);
    layout_update_features(layout);
    layout_view_changed(layout);
    select_seen(layout);
    g_signal_emit_by_name(layout, "face-changed");
}

void pin_layout_zoom(PinLayout *layout, double factor)
{
    GtkWidget *widget = GTK_WIDGET(layout);
    double x = gtk_widget_get_width(widget) / 2.0, y = gtk_widget_get_height(widget) / 2.0;
    if (layout->pointer_inside) {
        x = layout->pointer_x;
        y = layout->pointer_y;
    }
    layout_zoom_at(layout, x, y, factor);
}

void pin_layout_fit(PinLayout *layout)
{
    layout->fitted = TRUE;
    layout_view_changed(layout);
}

void pin_layout_view(PinLayout *layout, Point *origin, double *scale)
{
    *origin = (Point){layout->x, layout->y};
    *scale = layout->scale;
}

double pin_layout_zoom_level(PinLayout *layout)
{
    return layout->scale / SHEET_PIXELS;
}

void pin_layout_show_place(PinLayout *layout, Point at)
{
    GtkWidget *widget = GTK_WIDGET(layout);
    Point seen = layout_from_face(layout, at);
    double width = gtk_widget_get_width(widget), height = gtk_widget_get_height(widget);
    if (seen.x > 30 && seen.x < width - 30 && seen.y > 30 && seen.y < height - 30)
        return;
    layout->x += width / 2 - seen.x;
    layout->y += height / 2 - seen.y;
    layout->fitted = FALSE;
    layout_view_changed(layout);
}

void pin_layout_point_out(PinLayout *layout, int finding)
{
    if (layout->pointed_out == finding)
        return;
    layout->pointed_out = finding;
    layout_forget_signs(layout);
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

void pin_layout_set_snap(PinLayout *layout, gboolean snap)
{
    layout->snap = snap;
}

Length pin_layout_grid(PinLayout *layout)
{
    if (!layout->document)
        return 0;
    Unit unit = pin_document_unit(layout->document);
    char *typed = preference_text(unit == UNIT_INCH ? "grid-inch" : "grid-mm");
    Length grid = 0;
    if (!pin_typed_length_read(typed, unit, &grid, NULL, 0, NULL) || grid < 0)
        grid = 0;
    g_free(typed);
    return grid;
}

/* --- the document ----------------------------------------------------------------------------- */

static void on_changed(PinDocument *document, PinLayout *layout)
{
    if (!layout_frame(layout))
        pin_layout_set_face(layout, ID_TOP);
    if (!plate_find(pin_document_plate(document), layout->operation))
        pin_layout_set_operation(layout, ID_NONE);
    layout_forget(layout);
    layout_update_features(layout);
    if (layout->fitted)
        gtk_widget_queue_allocate(GTK_WIDGET(layout));
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

static void on_tried(PinDocument *document, PinLayout *layout)
{
    /* What does not move is drawn anew when a drag begins or ends, and at no time between. */
    if (layout->still_dragging != (pin_document_drag(document) != NULL))
        layout_forget(layout);
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

static void on_selection(PinDocument *document, PinLayout *layout)
{
    layout_update_features(layout);
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

void pin_layout_set_document(PinLayout *layout, PinDocument *document)
{
    pin_layout_set_section(layout, FALSE);
    if (layout->document) {
        for (gsize i = 0; i < G_N_ELEMENTS(layout->handlers); i++)
            g_clear_signal_handler(&layout->handlers[i], layout->document);
        g_clear_object(&layout->document);
    }
    if (document) {
        layout->document = g_object_ref(document);
        layout->handlers[0] = g_signal_connect(document, "changed", G_CALLBACK(on_changed), layout);
        layout->handlers[1] = g_signal_connect(document, "tried", G_CALLBACK(on_tried), layout);
        layout->handlers[2] =
            g_signal_connect(document, "selection-changed", G_CALLBACK(on_selection), layout);
    }
    layout_measure_end(layout);
    layout->guides.count = 0;
    layout->face = ID_TOP;
    layout->operation = ID_NONE;
    layout->fitted = TRUE;
    layout_forget(layout);
    layout_update_features(layout);
    layout_view_changed(layout);
}

/* --- the widget ------------------------------------------------------------------------------- */

/* Not while sizes are being given out. */
static gboolean say_viewed(gpointer data)
{
    PinLayout *layout = data;
    layout->viewed = 0;
    g_signal_emit_by_name(layout, "viewed");
    return G_SOURCE_REMOVE;
}

static void pin_layout_size_allocate(GtkWidget *widget, int width, int height, int baseline)
{
    PinLayout *layout = PIN_LAYOUT(widget);
    if (layout->fitted) {
        fit_now(layout, width, height);
        layout_forget_signs(layout);
    }
    layout_place_features(layout);
    if (layout->menu)
        gtk_popover_present(GTK_POPOVER(layout->menu));
    if (!layout->viewed)
        layout->viewed = g_idle_add(say_viewed, layout);
}

static void pin_layout_measure(GtkWidget *widget, GtkOrientation orientation, int for_size,
                               int *minimum, int *natural, int *minimum_baseline,
                               int *natural_baseline)
{
    *minimum = 200;
    *natural = 600;
}

static void pin_layout_snapshot(GtkWidget *widget, GtkSnapshot *snapshot)
{
    layout_draw(PIN_LAYOUT(widget), snapshot);
}

static void pin_layout_css_changed(GtkWidget *widget, GtkCssStyleChange *change)
{
    GTK_WIDGET_CLASS(pin_layout_parent_class)->css_changed(widget, change);
    layout_forget(PIN_LAYOUT(widget));
    gtk_widget_queue_draw(widget);
}

static void pin_layout_dispose(GObject *object)
{
    PinLayout *layout = PIN_LAYOUT(object);
    g_clear_handle_id(&layout->viewed, g_source_remove);
    pin_layout_set_document(layout, NULL);
    g_clear_pointer(&layout->menu, gtk_widget_unparent);
    GtkWidget *child;
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(layout))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_layout_parent_class)->dispose(object);
}

static void pin_layout_finalize(GObject *object)
{
    PinLayout *layout = PIN_LAYOUT(object);
    layout_forget(layout);
    finding_list_clear(&layout->marked);
    drawing_free(layout->still);
    drawing_free(layout->moving);
    lettering_unref(layout->lettering);
    g_hash_table_unref(layout->features);
    G_OBJECT_CLASS(pin_layout_parent_class)->finalize(object);
}

static void pin_layout_class_init(PinLayoutClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_layout_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_layout_finalize;
    widget->size_allocate = pin_layout_size_allocate;
    widget->measure = pin_layout_measure;
    widget->snapshot = pin_layout_snapshot;
    widget->css_changed = pin_layout_css_changed;
    g_signal_new("pointed", PIN_TYPE_LAYOUT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                 0);
    g_signal_new("section-changed", PIN_TYPE_LAYOUT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                 G_TYPE_NONE, 0);
    g_signal_new("operation-changed", PIN_TYPE_LAYOUT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                 G_TYPE_NONE, 0);
    g_signal_new("face-changed", PIN_TYPE_LAYOUT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                 G_TYPE_NONE, 0);
    g_signal_new("viewed", PIN_TYPE_LAYOUT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
    g_signal_new("finding-pressed", PIN_TYPE_LAYOUT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                 G_TYPE_NONE, 1, G_TYPE_INT);
    layout_add_menu_class(widget);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Page_Down, 0, "win.next-face", "i", 1);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Page_Up, 0, "win.next-face", "i", -1);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Page_Down, GDK_CONTROL_MASK, "win.step",
                                        "i", 1);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Page_Up, GDK_CONTROL_MASK, "win.step", "i",
                                        -1);
    gtk_widget_class_set_css_name(widget, "layout");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_layout_init(PinLayout *layout)
{
    layout->face = ID_TOP;
    layout->scale = 1;
    layout->fitted = TRUE;
    layout->snap = TRUE;
    layout->pointed_out = -1;
    layout->features = g_hash_table_new(NULL, NULL);
    layout->lettering = lettering_new(&layout->lettering_error);
    if (layout->lettering) {
        layout->still = drawing_new(layout->lettering);
        layout->moving = drawing_new(layout->lettering);
    }
    gtk_widget_set_focusable(GTK_WIDGET(layout), TRUE);
    gtk_widget_set_overflow(GTK_WIDGET(layout), GTK_OVERFLOW_HIDDEN);
    gtk_accessible_update_property(GTK_ACCESSIBLE(layout), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("Layout of the plate"), -1);
    layout_add_section(layout);
    layout_add_gestures(layout);
    layout_add_menu(layout);
    layout_add_drop_target(layout);
}
