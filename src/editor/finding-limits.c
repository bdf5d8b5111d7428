#include "editor/finding-limits.h"

#include "editor/access.h"
#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/limit-value.h"
#include "trade/typed.h"

struct _PinFindingLimits {
    GtkWindow parent_instance;
    GtkDropDown *rules;
    GtkBox *rows;
    GtkWidget *close;
    PinDocument *document;
    gulong handler;
    GPtrArray *with_limits; /* const Rule */
    GPtrArray *shown;       /* LimitRow */
};

G_DEFINE_FINAL_TYPE(PinFindingLimits, pin_finding_limits, GTK_TYPE_WINDOW)

/* A limit and the widgets that show it. */
typedef struct LimitRow {
    PinFindingLimits *limits;
    const Rule *rule;
    const RuleLimit *limit;
    GtkWidget *field, *put_back;
} LimitRow;

static const Settings *settings_of(PinFindingLimits *limits)
{
    return plate_settings(pin_document_plate(limits->document));
}

static void fill(LimitRow *row)
{
    Unit unit = pin_document_unit(row->limits->document);
    const Settings *settings = settings_of(row->limits);
    char *text = limit_text(row->limit, limit_value(settings, row->rule, row->limit), unit, FALSE);
    pin_field_row_set(PIN_FIELD_ROW(row->field), text, TRUE);
    gtk_widget_set_visible(row->put_back, limit_is_changed(settings, row->rule, row->limit));
    g_free(text);
}

static void on_changed(PinDocument *document, PinFindingLimits *limits)
{
    for (guint i = 0; i < limits->shown->len; i++)
        fill(g_ptr_array_index(limits->shown, i));
}

static void on_typed(PinFieldRow *field, const char *text, LimitRow *row)
{
    char taken_as[TYPED_TAKEN_AS];
    int64_t value;
    Error error;
    if (!limit_read(row->limit, text, pin_document_unit(row->limits->document), &value, taken_as,
                    &error)) {
        pin_field_row_refuse(field, &error);
        return;
    }
    pin_field_row_say(field, taken_as);
    limit_change(row->limits->document, row->rule, row->limit, value);
}

static void on_put_back(GtkButton *button, LimitRow *row)
{
    pin_field_row_say(PIN_FIELD_ROW(row->field), NULL);
    /* The button goes with the change: the field is where the eye is. */
    gtk_widget_child_focus(row->field, GTK_DIR_TAB_FORWARD);
    limit_put_back(row->limits->document, row->rule, row->limit);
}

static GtkWidget *source_label(LimitRow *row)
{
    Unit unit = pin_document_unit(row->limits->document);
    char *usual = limit_text(row->limit, row->limit->starting, unit, TRUE);
    char *text = g_strdup_printf(_("Usually %s: %s"), usual, _(row->limit->source));
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_max_width_chars(GTK_LABEL(label), 52);
    gtk_widget_set_hexpand(label, TRUE);
    gtk_widget_add_css_class(label, "caption");
    g_free(usual);
    g_free(text);
    return label;
}

static void row_free(gpointer data)
{
    LimitRow *row = data;
    /* A field that loses the focus while it goes may not change anything any more. */
    g_signal_handlers_disconnect_by_data(row->field, row);
    g_free(row);
}

static void add_row(PinFindingLimits *limits, const Rule *rule, const RuleLimit *limit)
{
    LimitRow *row = g_new0(LimitRow, 1);
    *row = (LimitRow){limits, rule, limit, NULL, NULL};
    char *says = g_strdup(_(limit->says));
    says[0] = g_ascii_toupper(says[0]);
    row->field = pin_field_row_new(says);
    row->put_back = gtk_button_new_with_label(_("Put back"));
    gtk_widget_set_tooltip_text(row->put_back, _("The usual limit for this plate again"));
    gtk_widget_set_valign(row->put_back, GTK_ALIGN_START);
    GtkWidget *below = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
    gtk_box_append(GTK_BOX(below), source_label(row));
    gtk_box_append(GTK_BOX(below), row->put_back);
    gtk_widget_set_margin_bottom(below, 8);
    gtk_box_append(limits->rows, row->field);
    gtk_box_append(limits->rows, below);
    g_signal_connect(row->field, "typed", G_CALLBACK(on_typed), row);
    g_signal_connect(row->put_back, "clicked", G_CALLBACK(on_put_back), row);
    g_ptr_array_add(limits->shown, row);
    fill(row);
    g_free(says);
}

static void show_rule(PinFindingLimits *limits)
{
    GtkWidget *child;
    g_ptr_array_set_size(limits->shown, 0);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(limits->rows))))
        gtk_box_remove(limits->rows, child);
    guint at = gtk_drop_down_get_selected(limits->rules);
    if (at >= limits->with_limits->len)
        return;
    const Rule *rule = g_ptr_array_index(limits->with_limits, at);
    for (int i = 0; i < rule->limit_count; i++)
        add_row(limits, rule, &rule->limits[i]);
}

static void on_rule(GtkDropDown *rules, GParamSpec *property, PinFindingLimits *limits)
{
    show_rule(limits);
}

static void list_rules(PinFindingLimits *limits, const Rule *first)
{
    GtkStringList *titles = gtk_string_list_new(NULL);
    guint at = 0;
    for (int i = 0; i < rule_count(); i++) {
        const Rule *rule = rule_at(i);
        if (rule->limit_count == 0)
            continue;
        if (rule == first)
            at = limits->with_limits->len;
        g_ptr_array_add(limits->with_limits, (gpointer)rule);
        gtk_string_list_append(titles, _(rule->title));
    }
    gtk_drop_down_set_model(limits->rules, G_LIST_MODEL(titles));
    g_object_unref(titles);
    gtk_drop_down_set_selected(limits->rules, at);
    access_choice(limits->rules, _("Check"));
    g_signal_connect(limits->rules, "notify::selected", G_CALLBACK(on_rule), limits);
}

GtkWidget *pin_finding_limits_new(GtkWindow *parent, PinDocument *document, const Rule *rule)
{
    PinFindingLimits *limits = g_object_new(PIN_TYPE_FINDING_LIMITS, "transient-for", parent, NULL);
    limits->document = g_object_ref(document);
    limits->handler = g_signal_connect(document, "changed", G_CALLBACK(on_changed), limits);
    list_rules(limits, rule);
    show_rule(limits);
    return GTK_WIDGET(limits);
}

static void pin_finding_limits_dispose(GObject *object)
{
    PinFindingLimits *limits = PIN_FINDING_LIMITS(object);
    g_ptr_array_set_size(limits->shown, 0);
    if (limits->document)
        g_clear_signal_handler(&limits->handler, limits->document);
    g_clear_object(&limits->document);
    G_OBJECT_CLASS(pin_finding_limits_parent_class)->dispose(object);
}

static void pin_finding_limits_finalize(GObject *object)
{
    PinFindingLimits *limits = PIN_FINDING_LIMITS(object);
    g_ptr_array_unref(limits->with_limits);
    g_ptr_array_unref(limits->shown);
    G_OBJECT_CLASS(pin_finding_limits_parent_class)->finalize(object);
}

static void pin_finding_limits_class_init(PinFindingLimitsClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_finding_limits_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_finding_limits_finalize;
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/finding-limits.ui");
    gtk_widget_class_bind_template_child(widget, PinFindingLimits, rules);
    gtk_widget_class_bind_template_child(widget, PinFindingLimits, rows);
    gtk_widget_class_bind_template_child(widget, PinFindingLimits, close);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void pin_finding_limits_init(PinFindingLimits *limits)
{
    limits->with_limits = g_ptr_array_new();
    limits->shown = g_ptr_array_new_with_free_func(row_free);
    gtk_widget_init_template(GTK_WIDGET(limits));
    g_signal_connect_swapped(limits->close, "clicked", G_CALLBACK(gtk_window_close), limits);
}
