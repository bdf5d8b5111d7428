#include "editor/finding-row.h"

#include "checks/rule.h"
#include "checks/sentence.h"
#include "editor/access.h"
#include "editor/intl.h"
#include "editor/sign.h"

struct _PinFindingRow {
    GtkWidget parent_instance;
    GtkDrawingArea *sign;
    GtkLabel *message;
    GtkLabel *remedy;
    GtkLabel *reason;
    GtkButton *mend, *accept, *take_back, *limits, *guide;
    gboolean chosen;
    PinFindingItem *item;
    gulong handler;
    Lettering *lettering;
};

G_DEFINE_FINAL_TYPE(PinFindingRow, pin_finding_row, GTK_TYPE_WIDGET)

static void draw(GtkDrawingArea *area, cairo_t *cairo, int width, int height, gpointer data)
{
    PinFindingRow *row = data;
    if (!row->item)
        return;
    const Finding *finding = pin_finding_item_finding(row->item);
    sign_draw(cairo, row->lettering, (Point){width / 2.0, height / 2.0}, finding->level,
              (int)pin_finding_item_number(row->item), palette_is_dark(GTK_WIDGET(area)), FALSE);
}

static void sentence(GtkLabel *label, const char *text)
{
    char *shown = g_strdup(text);
    shown[0] = g_ascii_toupper(shown[0]);
    gtk_label_set_label(label, shown);
    gtk_widget_set_visible(GTK_WIDGET(label), *shown != '\0');
    g_free(shown);
}

static void update_buttons(PinFindingRow *row)
{
    const Finding *finding = pin_finding_item_finding(row->item);
    gboolean counts = !finding->accepted;
    gtk_widget_set_visible(GTK_WIDGET(row->mend), counts && finding->remedy.move != ID_NONE);
    gtk_widget_set_visible(GTK_WIDGET(row->accept), counts && row->chosen);
    gtk_widget_set_visible(GTK_WIDGET(row->take_back), !counts);
    gtk_widget_set_visible(GTK_WIDGET(row->limits), row->chosen && finding->rule->limit_count > 0);
    gtk_widget_set_visible(GTK_WIDGET(row->guide), row->chosen);
    char *page = g_strconcat("rule-", finding->rule->slug, NULL);
    /* The target first: an action without its page is complained of. */
    gtk_actionable_set_action_target(GTK_ACTIONABLE(row->guide), "s", page);
    gtk_actionable_set_action_name(GTK_ACTIONABLE(row->guide), "app.help-page");
    g_free(page);
}

static void on_changed(PinFindingItem *item, PinFindingRow *row)
{
    const Finding *finding = pin_finding_item_finding(item);
    sentence(row->message, pin_finding_item_message(item));
    sentence(row->remedy, pin_finding_item_remedy(item));
    sentence(row->reason, pin_finding_item_reason(item));
    if (finding->accepted)
        gtk_widget_set_visible(GTK_WIDGET(row->remedy), FALSE);
    update_buttons(row);
    if (finding->accepted)
        gtk_widget_add_css_class(GTK_WIDGET(row), "accepted");
    else
        gtk_widget_remove_css_class(GTK_WIDGET(row), "accepted");
    gtk_widget_queue_draw(GTK_WIDGET(row->sign));
    char *name = g_strdup_printf("%s %u", _(finding_level_name(finding->level)),
                                 pin_finding_item_number(item));
    char *all = g_strdup_printf("%s: %s", name, gtk_label_get_label(row->message));
    access_name(GTK_WIDGET(row->sign), name);
    access_name_item(GTK_WIDGET(row), all);
    g_free(all);
    g_free(name);
}

static void on_button(GtkButton *button, PinFindingRow *row)
{
    g_signal_emit_by_name(row, gtk_widget_get_name(GTK_WIDGET(button)));
}

void pin_finding_row_set_chosen(PinFindingRow *row, gboolean chosen)
{
    row->chosen = chosen;
    if (row->item)
        update_buttons(row);
}

void pin_finding_row_set_item(PinFindingRow *row, PinFindingItem *item)
{
    if (row->item) {
        g_clear_signal_handler(&row->handler, row->item);
        g_clear_object(&row->item);
    }
    if (!item)
        return;
    row->item = g_object_ref(item);
    row->handler = g_signal_connect(item, "changed", G_CALLBACK(on_changed), row);
    on_changed(item, row);
}

PinFindingItem *pin_finding_row_item(PinFindingRow *row)
{
    return row->item;
}

static const char *const wishes[] = {"mend", "accept", "take-back", "limits"};

static void pin_finding_row_dispose(GObject *object)
{
    GtkWidget *child;
    pin_finding_row_set_item(PIN_FINDING_ROW(object), NULL);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_finding_row_parent_class)->dispose(object);
}

static void pin_finding_row_finalize(GObject *object)
{
    lettering_unref(PIN_FINDING_ROW(object)->lettering);
    G_OBJECT_CLASS(pin_finding_row_parent_class)->finalize(object);
}

static void pin_finding_row_class_init(PinFindingRowClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_finding_row_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_finding_row_finalize;
    for (gsize i = 0; i < G_N_ELEMENTS(wishes); i++)
        g_signal_new(wishes[i], PIN_TYPE_FINDING_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                     G_TYPE_NONE, 0);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/finding-row.ui");
    gtk_widget_class_set_css_name(widget, "findingrow");
    gtk_widget_class_bind_template_child(widget, PinFindingRow, sign);
    gtk_widget_class_bind_template_child(widget, PinFindingRow, message);
    gtk_widget_class_bind_template_child(widget, PinFindingRow, remedy);
    gtk_widget_class_bind_template_child(widget, PinFindingRow, reason);
    gtk_widget_class_bind_template_child(widget, PinFindingRow, mend);
    gtk_widget_class_bind_template_child(widget, PinFindingRow, accept);
    gtk_widget_class_bind_template_child(widget, PinFindingRow, take_back);
    gtk_widget_class_bind_template_child(widget, PinFindingRow, limits);
    gtk_widget_class_bind_template_child(widget, PinFindingRow, guide);
}

static void pin_finding_row_init(PinFindingRow *row)
{
    gtk_widget_init_template(GTK_WIDGET(row));
    gtk_drawing_area_set_draw_func(row->sign, draw, row, NULL);
    GtkButton *buttons[] = {row->mend, row->accept, row->take_back, row->limits};
    for (gsize i = 0; i < G_N_ELEMENTS(buttons); i++) {
        gtk_widget_set_name(GTK_WIDGET(buttons[i]), wishes[i]);
        g_signal_connect(buttons[i], "clicked", G_CALLBACK(on_button), row);
    }
}

GtkWidget *pin_finding_row_new(Lettering *lettering)
{
    PinFindingRow *row = g_object_new(PIN_TYPE_FINDING_ROW, NULL);
    row->lettering = lettering_ref(lettering);
    return GTK_WIDGET(row);
}
