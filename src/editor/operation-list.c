#include "editor/operation-list.h"

#include "editor/access.h"
#include "editor/intl.h"
#include "editor/operation-order.h"
#include "session/selection.h"

struct _PinOperationList {
    GtkWidget parent_instance;
    GtkListBox *making, *running;
    GtkWidget *add_making, *add_running;
    PinDocument *document;
    PinLayout *layout;
    gulong handlers[2];
    char *shown; /* the rows as they stand */
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(PinOperationList, pin_operation_list, GTK_TYPE_WIDGET)

static GtkListBox *box_of(PinOperationList *list, int kind)
{
    return kind == OPERATION_MAKING ? list->making : list->running;
}

static FeatureId row_id(GtkListBoxRow *row)
{
    return GPOINTER_TO_UINT(g_object_get_data(G_OBJECT(row), "operation"));
}

/* --- what a row's buttons do ------------------------------------------------------------------ */

static FeatureId shown_operation(PinOperationList *list)
{
    return pin_layout_operation(list->layout);
}

static void on_earlier(PinOperationList *list)
{
    operation_shift(list->document, shown_operation(list), -1);
}

static void on_later(PinOperationList *list)
{
    operation_shift(list->document, shown_operation(list), 1);
}

static void on_take_away(PinOperationList *list)
{
    FeatureId id = shown_operation(list);
    Edit edit = EDIT_EMPTY;
    Error error;
    if (selection_delete(pin_document_session(list->document), &id, 1, &edit, &error)) {
        pin_document_do(list->document, &edit);
        return;
    }
    edit_clear(&edit);
    pin_document_refuse(list->document, &error);
}

static void add(PinOperationList *list, OperationKind kind)
{
    FeatureId id = operation_add(list->document, kind, pin_layout_face(list->layout));
    if (id == ID_NONE)
        return;
    pin_layout_set_operation(list->layout, id);
    g_signal_emit_by_name(list, "chosen", id);
}

static void on_add_making(PinOperationList *list)
{
    add(list, OPERATION_MAKING);
}

static void on_add_running(PinOperationList *list)
{
    add(list, OPERATION_RUNNING);
}

/* --- rows ------------------------------------------------------------------------------------- */

static void add_icon(PinOperationList *list, GtkWidget *box, const char *icon, const char *tip,
                     gboolean enabled, GCallback pressed)
{
    GtkWidget *button = gtk_button_new_from_icon_name(icon);
    gtk_widget_set_tooltip_text(button, tip);
    gtk_accessible_update_property(GTK_ACCESSIBLE(button), GTK_ACCESSIBLE_PROPERTY_LABEL, tip, -1);
    gtk_widget_add_css_class(button, "flat");
    gtk_widget_set_sensitive(button, enabled);
    g_signal_connect_swapped(button, "clicked", pressed, list);
    gtk_box_append(GTK_BOX(box), button);
}

static void add_buttons(PinOperationList *list, GtkWidget *box, FeatureId id)
{
    const Plate *plate = pin_document_plate(list->document);
    GtkWidget *buttons = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 2);
    add_icon(list, buttons, "go-up-symbolic", _("Earlier"), operation_can_shift(plate, id, -1),
             G_CALLBACK(on_earlier));
    add_icon(list, buttons, "go-down-symbolic", _("Later"), operation_can_shift(plate, id, 1),
             G_CALLBACK(on_later));
    add_icon(list, buttons, "list-remove-symbolic", _("Take this operation away"), TRUE,
             G_CALLBACK(on_take_away));
    gtk_box_append(GTK_BOX(box), buttons);
}

static char *face_words(PinOperationList *list, const Operation *operation)
{
    const Record *face = plate_find(pin_document_plate(list->document), operation->face);
    const char *name = face && face->face.kind == FACE_INCLINED ? face->face.name : _("top");
    guint passes = operation->passes.count;
    if (operation->kind == OPERATION_MAKING || passes == 0)
        return g_strdup(name ? name : "");
    return g_strdup_printf(ngettext("%s, %u pass", "%s, %u passes", passes), name ? name : "",
                           passes);
}

static GtkWidget *left_label(const char *text)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_wrap_mode(GTK_LABEL(label), PANGO_WRAP_WORD_CHAR);
    return label;
}

static void add_row(PinOperationList *list, const Record *record, guint number)
{
    GtkWidget *row = gtk_list_box_row_new();
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_VERTICAL, 2);
    char *name =
        g_strdup_printf("%u  %s", number, record->operation.name ? record->operation.name : "");
    char *words = face_words(list, &record->operation);
    GtkWidget *caption = left_label(words);
    gtk_widget_add_css_class(caption, "caption");
    gtk_box_append(GTK_BOX(box), left_label(name));
    gtk_box_append(GTK_BOX(box), caption);
    if (record->id == shown_operation(list))
        add_buttons(list, box, record->id);
    gtk_list_box_row_set_child(GTK_LIST_BOX_ROW(row), box);
    g_object_set_data(G_OBJECT(row), "operation", GUINT_TO_POINTER(record->id));
    gtk_accessible_update_property(GTK_ACCESSIBLE(row), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                   GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
    access_row(row);
    gtk_list_box_append(box_of(list, record->operation.kind), row);
    g_free(name);
    g_free(words);
}

static char *rows_now(PinOperationList *list, GPtrArray *operations)
{
    GString *text = g_string_new(NULL);
    for (guint i = 0; i < operations->len; i++) {
        const Record *record = g_ptr_array_index(operations, i);
        char *words = face_words(list, &record->operation);
        g_string_append_printf(text, "%u %d %s %s%s\n", record->id, record->operation.kind,
                               record->operation.name ? record->operation.name : "", words,
                               record->id == shown_operation(list) ? " *" : "");
        g_free(words);
    }
    return g_string_free(text, FALSE);
}

static void build(PinOperationList *list, GPtrArray *operations)
{
    GtkListBox *boxes[] = {list->making, list->running};
    GtkWidget *row;
    for (gsize i = 0; i < G_N_ELEMENTS(boxes); i++)
        while ((row = gtk_widget_get_first_child(GTK_WIDGET(boxes[i]))))
            gtk_list_box_remove(boxes[i], row);
    guint numbers[2] = {0, 0};
    for (guint i = 0; i < operations->len; i++) {
        const Record *record = g_ptr_array_index(operations, i);
        add_row(list, record, ++numbers[record->operation.kind == OPERATION_RUNNING]);
    }
    for (gsize i = 0; i < G_N_ELEMENTS(boxes); i++)
        gtk_widget_set_visible(GTK_WIDGET(boxes[i]), numbers[i] > 0);
}

static void select_row(PinOperationList *list, GtkListBox *box)
{
    GtkWidget *row = gtk_widget_get_first_child(GTK_WIDGET(box));
    while (row && row_id(GTK_LIST_BOX_ROW(row)) != shown_operation(list))
        row = gtk_widget_get_next_sibling(row);
    gtk_list_box_select_row(box, row ? GTK_LIST_BOX_ROW(row) : NULL);
}

static void update(PinOperationList *list)
{
    GPtrArray *operations = operations_in_order(pin_document_plate(list->document));
    char *rows = rows_now(list, operations);
    list->updating = TRUE;
    gboolean focus = gtk_widget_get_focus_child(GTK_WIDGET(list->making)) ||
                     gtk_widget_get_focus_child(GTK_WIDGET(list->running));
    gboolean anew = g_strcmp0(rows, list->shown) != 0;
    if (anew)
        build(list, operations);
    g_free(list->shown);
    list->shown = rows;
    select_row(list, list->making);
    select_row(list, list->running);
    for (int kind = 0; anew && focus && kind < 2; kind++) {
        GtkListBoxRow *row = gtk_list_box_get_selected_row(box_of(list, kind));
        if (row)
            gtk_widget_grab_focus(GTK_WIDGET(row));
    }
    list->updating = FALSE;
    g_ptr_array_unref(operations);
}

/* By the pointer, or by Enter; moving over the rows with the keys chooses nothing yet. */
static void on_activated(GtkListBox *box, GtkListBoxRow *row, PinOperationList *list)
{
    FeatureId id = row_id(row);
    if (list->updating)
        return;
    pin_layout_set_operation(list->layout, id);
    g_signal_emit_by_name(list, "chosen", id);
}

static void on_changed(gpointer object, PinOperationList *list)
{
    update(list);
}

void pin_operation_list_set_document(PinOperationList *list, PinDocument *document,
                                     PinLayout *layout)
{
    if (list->document) {
        g_clear_signal_handler(&list->handlers[0], list->document);
        g_clear_signal_handler(&list->handlers[1], list->layout);
        g_clear_object(&list->document);
        g_clear_object(&list->layout);
    }
    if (!document)
        return;
    list->document = g_object_ref(document);
    list->layout = g_object_ref(layout);
    list->handlers[0] = g_signal_connect(document, "changed", G_CALLBACK(on_changed), list);
    list->handlers[1] = g_signal_connect(layout, "operation-changed", G_CALLBACK(on_changed), list);
    update(list);
}

static void pin_operation_list_dispose(GObject *object)
{
    GtkWidget *child;
    pin_operation_list_set_document(PIN_OPERATION_LIST(object), NULL, NULL);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_operation_list_parent_class)->dispose(object);
}

static void pin_operation_list_finalize(GObject *object)
{
    g_free(PIN_OPERATION_LIST(object)->shown);
    G_OBJECT_CLASS(pin_operation_list_parent_class)->finalize(object);
}

static void pin_operation_list_class_init(PinOperationListClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_operation_list_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_operation_list_finalize;
    g_signal_new("chosen", PIN_TYPE_OPERATION_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                 G_TYPE_NONE, 1, G_TYPE_UINT);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/operation-list.ui");
    gtk_widget_class_bind_template_child(widget, PinOperationList, making);
    gtk_widget_class_bind_template_child(widget, PinOperationList, running);
    gtk_widget_class_bind_template_child(widget, PinOperationList, add_making);
    gtk_widget_class_bind_template_child(widget, PinOperationList, add_running);
    gtk_widget_class_set_css_name(widget, "operationlist");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_operation_list_init(PinOperationList *list)
{
    gtk_widget_init_template(GTK_WIDGET(list));
    g_signal_connect(list->making, "row-activated", G_CALLBACK(on_activated), list);
    g_signal_connect(list->running, "row-activated", G_CALLBACK(on_activated), list);
    g_signal_connect_swapped(list->add_making, "clicked", G_CALLBACK(on_add_making), list);
    g_signal_connect_swapped(list->add_running, "clicked", G_CALLBACK(on_add_running), list);
}
