#include "editor/feature-list.h"

#include "editor/access.h"
#include "editor/intl.h"
#include "editor/layout-feature.h"
#include "plate/label.h"

/* --- a row's object ----------------------------------------------------------------------------
 */

#define PIN_TYPE_FEATURE_ITEM (pin_feature_item_get_type())
G_DECLARE_FINAL_TYPE(PinFeatureItem, pin_feature_item, PIN, FEATURE_ITEM, GObject)

struct _PinFeatureItem {
    GObject parent_instance;
    FeatureId id;
};

G_DEFINE_FINAL_TYPE(PinFeatureItem, pin_feature_item, G_TYPE_OBJECT)

static void pin_feature_item_class_init(PinFeatureItemClass *class)
{
}

static void pin_feature_item_init(PinFeatureItem *item)
{
}

/* --- the list ----------------------------------------------------------------------------------
 */

struct _PinFeatureList {
    GtkWidget parent_instance;
    GtkListView *list;
    PinDocument *document;
    gulong handlers[2];
    GListStore *items; /* PinFeatureItem */
    GtkMultiSelection *selection;
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(PinFeatureList, pin_feature_list, GTK_TYPE_WIDGET)

static gint by_kind_and_label(gconstpointer a, gconstpointer b, gpointer data)
{
    const Plate *plate = data;
    const Record *first = plate_find(plate, *(const FeatureId *)a);
    const Record *second = plate_find(plate, *(const FeatureId *)b);
    if (first->kind != second->kind)
        return (int)first->kind - (int)second->kind;
    int order = label_compare(record_label(first), record_label(second));
    return order ? order : (first->id > second->id) - (first->id < second->id);
}

static GArray *listed(PinFeatureList *list)
{
    const Plate *plate = pin_document_plate(list->document);
    GArray *ids = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record_face(record) != ID_NONE || record->kind == RECORD_FITTING)
            g_array_append_val(ids, record->id);
    }
    g_array_sort_with_data(ids, by_kind_and_label, (gpointer)plate);
    return ids;
}

static FeatureId id_at(PinFeatureList *list, guint i)
{
    PinFeatureItem *item = g_list_model_get_item(G_LIST_MODEL(list->items), i);
    FeatureId id = item->id;
    g_object_unref(item);
    return id;
}

/* Rows between the first and the last difference are made anew; the others stay. */
static void splice(PinFeatureList *list, GArray *ids)
{
    guint had = g_list_model_get_n_items(G_LIST_MODEL(list->items)), head = 0, tail = 0;
    while (head < had && head < ids->len &&
           id_at(list, head) == g_array_index(ids, FeatureId, head))
        head++;
    while (tail < had - head && tail < ids->len - head &&
           id_at(list, had - 1 - tail) == g_array_index(ids, FeatureId, ids->len - 1 - tail))
        tail++;
    guint added = ids->len - head - tail;
    gpointer *items = g_new0(gpointer, added + 1);
    for (guint i = 0; i < added; i++) {
        PinFeatureItem *item = g_object_new(PIN_TYPE_FEATURE_ITEM, NULL);
        item->id = g_array_index(ids, FeatureId, head + i);
        items[i] = item;
    }
    g_list_store_splice(list->items, head, had - head - tail, items, added);
    for (guint i = 0; i < added; i++)
        g_object_unref(items[i]);
    g_free(items);
}

static void show_selection(PinFeatureList *list)
{
    guint count = g_list_model_get_n_items(G_LIST_MODEL(list->items));
    GtkBitset *selected = gtk_bitset_new_empty(), *mask = gtk_bitset_new_range(0, count);
    for (guint i = 0; i < count; i++)
        if (pin_document_is_selected(list->document, id_at(list, i)))
            gtk_bitset_add(selected, i);
    list->updating = TRUE;
    gtk_selection_model_set_selection(GTK_SELECTION_MODEL(list->selection), selected, mask);
    list->updating = FALSE;
    gtk_bitset_unref(selected);
    gtk_bitset_unref(mask);
}

static void on_changed(PinDocument *document, PinFeatureList *list)
{
    GArray *ids = listed(list);
    list->updating = TRUE;
    splice(list, ids);
    list->updating = FALSE;
    g_array_unref(ids);
    show_selection(list);
}

static void on_document_selection(PinDocument *document, PinFeatureList *list)
{
    if (!list->updating)
        show_selection(list);
}

static void on_selection(GtkSelectionModel *model, guint position, guint n_items,
                         PinFeatureList *list)
{
    if (list->updating || !list->document)
        return;
    GtkBitset *selected = gtk_selection_model_get_selection(model);
    GArray *ids = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    for (guint64 i = 0; i < gtk_bitset_get_size(selected); i++) {
        FeatureId id = id_at(list, gtk_bitset_get_nth(selected, (guint)i));
        g_array_append_val(ids, id);
    }
    list->updating = TRUE;
    pin_document_select(list->document, (FeatureId *)(void *)ids->data, ids->len);
    list->updating = FALSE;
    g_array_unref(ids);
    gtk_bitset_unref(selected);
}

/* --- rows --------------------------------------------------------------------------------------
 */

static void on_setup(GtkListItemFactory *factory, GtkListItem *list_item, PinFeatureList *list)
{
    GtkWidget *label = gtk_label_new(NULL);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_ellipsize(GTK_LABEL(label), PANGO_ELLIPSIZE_END);
    gtk_list_item_set_child(list_item, label);
    access_item(label);
}

static void update_label(GtkListItem *list_item, PinFeatureList *list)
{
    PinFeatureItem *item = gtk_list_item_get_item(list_item);
    if (!item || !list->document || !plate_find(pin_document_plate(list->document), item->id))
        return;
    char *words = feature_words(list->document, item->id);
    words[0] = g_ascii_toupper(words[0]);
    gtk_label_set_label(GTK_LABEL(gtk_list_item_get_child(list_item)), words);
    access_name_item(gtk_list_item_get_child(list_item), words);
    g_free(words);
}

static void on_item_changed(PinDocument *document, GtkListItem *list_item)
{
    update_label(list_item, g_object_get_data(G_OBJECT(list_item), "list"));
}

static void on_bind(GtkListItemFactory *factory, GtkListItem *list_item, PinFeatureList *list)
{
    g_object_set_data(G_OBJECT(list_item), "list", list);
    update_label(list_item, list);
    if (!list->document)
        return;
    gulong handler = g_signal_connect_object(list->document, "changed", G_CALLBACK(on_item_changed),
                                             list_item, G_CONNECT_AFTER);
    g_object_set_data(G_OBJECT(list_item), "handler", GSIZE_TO_POINTER(handler));
}

static void on_unbind(GtkListItemFactory *factory, GtkListItem *list_item, PinFeatureList *list)
{
    gulong handler = GPOINTER_TO_SIZE(g_object_get_data(G_OBJECT(list_item), "handler"));
    if (list->document && handler)
        g_signal_handler_disconnect(list->document, handler);
    g_object_set_data(G_OBJECT(list_item), "handler", NULL);
}

/* --- the widget --------------------------------------------------------------------------------
 */

void pin_feature_list_set_document(PinFeatureList *list, PinDocument *document)
{
    if (list->document) {
        g_list_store_remove_all(list->items);
        g_clear_signal_handler(&list->handlers[0], list->document);
        g_clear_signal_handler(&list->handlers[1], list->document);
        g_clear_object(&list->document);
    }
    if (!document)
        return;
    list->document = g_object_ref(document);
    list->handlers[0] = g_signal_connect(document, "changed", G_CALLBACK(on_changed), list);
    list->handlers[1] =
        g_signal_connect(document, "selection-changed", G_CALLBACK(on_document_selection), list);
    on_changed(document, list);
}

static void pin_feature_list_dispose(GObject *object)
{
    PinFeatureList *list = PIN_FEATURE_LIST(object);
    GtkWidget *child;
    list->updating = TRUE;
    pin_feature_list_set_document(list, NULL);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    g_clear_object(&list->selection);
    G_OBJECT_CLASS(pin_feature_list_parent_class)->dispose(object);
}

static void pin_feature_list_finalize(GObject *object)
{
    g_object_unref(PIN_FEATURE_LIST(object)->items);
    G_OBJECT_CLASS(pin_feature_list_parent_class)->finalize(object);
}

static void pin_feature_list_class_init(PinFeatureListClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_feature_list_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_feature_list_finalize;
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/feature-list.ui");
    gtk_widget_class_bind_template_child(widget, PinFeatureList, list);
    gtk_widget_class_set_css_name(widget, "features");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_feature_list_init(PinFeatureList *list)
{
    gtk_widget_init_template(GTK_WIDGET(list));
    list->items = g_list_store_new(PIN_TYPE_FEATURE_ITEM);
    list->selection = gtk_multi_selection_new(g_object_ref(G_LIST_MODEL(list->items)));
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    g_signal_connect(factory, "setup", G_CALLBACK(on_setup), list);
    g_signal_connect(factory, "bind", G_CALLBACK(on_bind), list);
    g_signal_connect(factory, "unbind", G_CALLBACK(on_unbind), list);
    gtk_list_view_set_factory(list->list, factory);
    gtk_list_view_set_model(list->list, GTK_SELECTION_MODEL(list->selection));
    g_object_unref(factory);
    g_signal_connect(list->selection, "selection-changed", G_CALLBACK(on_selection), list);
}
