#include "editor/operation-step.h"

#include "editor/access.h"
#include "editor/intl.h"
#include "editor/operation-order.h"

struct _PinOperationStep {
    GtkWidget parent_instance;
    GtkDropDown *choice;
    PinDocument *document;
    PinLayout *layout;
    gulong handlers[2];
    GArray *ids; /* FeatureId, of each choice */
    char *shown; /* the choices as they stand */
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(PinOperationStep, pin_operation_step, GTK_TYPE_WIDGET)

static void on_chosen(GtkDropDown *choice, GParamSpec *property, PinOperationStep *step)
{
    guint chosen = gtk_drop_down_get_selected(choice);
    if (!step->updating && step->layout && chosen < step->ids->len)
        pin_layout_set_operation(step->layout, g_array_index(step->ids, FeatureId, chosen));
}

static char *words_of(const Record *record, guint number)
{
    const char *name = record->operation.name ? record->operation.name : "";
    return g_strdup_printf(record->operation.kind == OPERATION_MAKING ? _("Make %u: %s")
                                                                      : _("Run %u: %s"),
                           number, name);
}

static GtkStringList *list_choices(PinOperationStep *step)
{
    GtkStringList *words = gtk_string_list_new(NULL);
    GPtrArray *operations = operations_in_order(pin_document_plate(step->document));
    FeatureId all = ID_NONE;
    guint number = 0;
    int kind = -1;
    g_array_set_size(step->ids, 0);
    g_array_append_val(step->ids, all);
    gtk_string_list_append(words, _("All that there is"));
    for (guint i = 0; i < operations->len; i++) {
        const Record *record = g_ptr_array_index(operations, i);
        number = record->operation.kind == kind ? number + 1 : 1;
        kind = record->operation.kind;
        char *text = words_of(record, number);
        gtk_string_list_append(words, text);
        g_array_append_val(step->ids, record->id);
        g_free(text);
    }
    g_ptr_array_unref(operations);
    return words;
}

static char *joined(GtkStringList *words)
{
    GString *text = g_string_new(NULL);
    for (guint i = 0; i < g_list_model_get_n_items(G_LIST_MODEL(words)); i++)
        g_string_append_printf(text, "%s\n", gtk_string_list_get_string(words, i));
    return g_string_free(text, FALSE);
}

static guint position_of(PinOperationStep *step, FeatureId id)
{
    for (guint i = 0; i < step->ids->len; i++)
        if (g_array_index(step->ids, FeatureId, i) == id)
            return i;
    return 0;
}

static void update(PinOperationStep *step)
{
    GtkStringList *words = list_choices(step);
    char *text = joined(words);
    step->updating = TRUE;
    if (g_strcmp0(text, step->shown) != 0)
        gtk_drop_down_set_model(step->choice, G_LIST_MODEL(words));
    g_free(step->shown);
    step->shown = text;
    gtk_drop_down_set_selected(step->choice, position_of(step, pin_layout_operation(step->layout)));
    gtk_widget_set_visible(GTK_WIDGET(step), step->ids->len > 1);
    step->updating = FALSE;
    g_object_unref(words);
}

void pin_operation_step_go(PinOperationStep *step, int by)
{
    if (!step->layout || step->ids->len < 2)
        return;
    int count = (int)step->ids->len;
    int at = (int)position_of(step, pin_layout_operation(step->layout));
    pin_layout_set_operation(step->layout,
                             g_array_index(step->ids, FeatureId, (at + by + count) % count));
}

static void on_changed(gpointer object, PinOperationStep *step)
{
    update(step);
}

void pin_operation_step_set_document(PinOperationStep *step, PinDocument *document,
                                     PinLayout *layout)
{
    if (step->document) {
        g_clear_signal_handler(&step->handlers[0], step->document);
        g_clear_signal_handler(&step->handlers[1], step->layout);
        g_clear_object(&step->document);
        g_clear_object(&step->layout);
    }
    if (!document)
        return;
    step->document = g_object_ref(document);
    step->layout = g_object_ref(layout);
    step->handlers[0] = g_signal_connect(document, "changed", G_CALLBACK(on_changed), step);
    step->handlers[1] = g_signal_connect(layout, "operation-changed", G_CALLBACK(on_changed), step);
    update(step);
}

static void pin_operation_step_dispose(GObject *object)
{
    GtkWidget *child;
    pin_operation_step_set_document(PIN_OPERATION_STEP(object), NULL, NULL);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_operation_step_parent_class)->dispose(object);
}

static void pin_operation_step_finalize(GObject *object)
{
    PinOperationStep *step = PIN_OPERATION_STEP(object);
    g_array_unref(step->ids);
    g_free(step->shown);
    G_OBJECT_CLASS(pin_operation_step_parent_class)->finalize(object);
}

static void pin_operation_step_class_init(PinOperationStepClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_operation_step_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_operation_step_finalize;
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/operation-step.ui");
    gtk_widget_class_bind_template_child(widget, PinOperationStep, choice);
    gtk_widget_class_set_css_name(widget, "operationstep");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_operation_step_init(PinOperationStep *step)
{
    gtk_widget_init_template(GTK_WIDGET(step));
    access_choice(step->choice, _("Operation shown"));
    step->ids = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    g_signal_connect(step->choice, "notify::selected", G_CALLBACK(on_chosen), step);
}
