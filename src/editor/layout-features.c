/* The layout's widgets for its features, kept in step with the plate. */
#include "editor/layout-feature.h"
#include "editor/layout-private.h"

static void drop_feature(PinLayout *layout, FeatureId id)
{
    GtkWidget *widget = g_hash_table_lookup(layout->features, GUINT_TO_POINTER(id));
    if (!widget)
        return;
    g_hash_table_remove(layout->features, GUINT_TO_POINTER(id));
    gtk_widget_unparent(widget);
}

static bool update_feature(const Feature *feature, void *data)
{
    PinLayout *layout = data;
    if (feature->face != layout->face)
        return true;
    GtkWidget *widget = g_hash_table_lookup(layout->features, GUINT_TO_POINTER(feature->id));
    if (widget) {
        pin_layout_feature_update(PIN_LAYOUT_FEATURE(widget));
    } else {
        widget = pin_layout_feature_new(layout->document, feature->id);
        gtk_widget_set_parent(widget, GTK_WIDGET(layout));
        g_hash_table_insert(layout->features, GUINT_TO_POINTER(feature->id), widget);
    }
    gboolean selected = pin_document_is_selected(layout->document, feature->id);
    gtk_accessible_update_state(GTK_ACCESSIBLE(widget), GTK_ACCESSIBLE_STATE_SELECTED, selected,
                                -1);
    return true;
}

void layout_update_features(PinLayout *layout)
{
    const Placed *placed =
        layout->document ? session_placed(pin_document_session(layout->document)) : NULL;
    GList *ids = g_hash_table_get_keys(layout->features);
    for (GList *i = ids; i; i = i->next) {
        FeatureId id = GPOINTER_TO_UINT(i->data);
        const Feature *feature = placed ? placed_find(placed, id) : NULL;
        if (!feature || feature->face != layout->face)
            drop_feature(layout, id);
    }
    g_list_free(ids);
    if (placed)
        placed_each(placed, update_feature, layout);
}

void layout_place_features(PinLayout *layout)
{
    if (!layout->document)
        return;
    const Placed *placed = session_placed(pin_document_session(layout->document));
    GHashTableIter i;
    gpointer key, value;
    g_hash_table_iter_init(&i, layout->features);
    while (g_hash_table_iter_next(&i, &key, &value)) {
        const Feature *feature = placed_find(placed, GPOINTER_TO_UINT(key));
        if (!feature)
            continue;
        Point corner = layout_from_face(layout, (Point){feature->box.x0, feature->box.y1});
        GtkAllocation area = {(int)corner.x, (int)corner.y,
                              MAX(1, (int)((feature->box.x1 - feature->box.x0) * layout->scale)),
                              MAX(1, (int)((feature->box.y1 - feature->box.y0) * layout->scale))};
        gtk_widget_size_allocate(value, &area, -1);
    }
}
