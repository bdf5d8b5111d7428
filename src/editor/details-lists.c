/* Lists of structs in a record: a hole's steps, a base's seats, an operation's passes. */
#include "editor/details-private.h"

#include "editor/intl.h"
#include "editor/record-list.h"

/* What a button does to an item of a list; 0 takes it away. */
typedef struct ListButton {
    PinDetails *details;
    const DetailList *list;
    guint index;
    int by;
} ListButton;

static void want_first(PinDetails *details, const DetailList *list, guint index)
{
    details->wanted = (DetailSpot){&list->fields[0], list, index, FALSE};
}

static void on_button(GtkButton *button, ListButton *pressed)
{
    PinDetails *details = pressed->details;
    const Record *record = details_record(details);
    if (!record || details->filling)
        return;
    ListButton what = *pressed; /* goes with its button */
    Record *after = record_copy(record, record->id);
    if (what.by) {
        record_list_shift(after, what.list->offset, what.index, what.by);
        want_first(details, what.list, what.index + (guint)what.by);
    } else {
        record_list_remove(after, what.list->offset, what.index);
        if (what.index > 0)
            want_first(details, what.list, what.index - 1);
    }
    pin_document_change(details->document, what.by ? _("Change the order") : _("Take away"), after);
    details->wanted.field = NULL;
}

static void on_add(GtkButton *button, ListButton *pressed)
{
    PinDetails *details = pressed->details;
    const Record *record = details_record(details);
    const DetailList *list = pressed->list;
    if (!record || details->filling)
        return;
    Record *after = record_copy(record, record->id);
    List *items = record_list(after, list->offset);
    void *item = list_add(items, list->size);
    list->begin(pin_document_plate(details->document), after, item);
    want_first(details, list, items->count - 1);
    pin_document_change(details->document, _(list->add), after);
    details->wanted.field = NULL;
}

static void connect(GtkWidget *button, GCallback pressed, ListButton what)
{
    g_signal_connect_data(button, "clicked", pressed, g_memdup2(&what, sizeof what),
                          (GClosureNotify)(GCallback)g_free, 0);
}

static void add_icon(GtkWidget *box, const char *icon, const char *tip, gboolean enabled,
                     ListButton what)
{
    GtkWidget *button = gtk_button_new_from_icon_name(icon);
    gtk_widget_set_tooltip_text(button, tip);
    gtk_accessible_update_property(GTK_ACCESSIBLE(button), GTK_ACCESSIBLE_PROPERTY_LABEL, tip, -1);
    gtk_widget_add_css_class(button, "flat");
    gtk_widget_set_sensitive(button, enabled);
    connect(button, G_CALLBACK(on_button), what);
    gtk_box_append(GTK_BOX(box), button);
}

static void add_head(PinDetails *details, const DetailList *list, guint index, guint count)
{
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 2);
    char *number = g_strdup_printf("%u", index + 1);
    GString *text = g_string_new(_(list->heading));
    g_string_replace(text, "%u", number, 1);
    GtkWidget *label = gtk_label_new(text->str);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_set_hexpand(label, TRUE);
    gtk_widget_add_css_class(label, "group-heading");
    gtk_box_append(GTK_BOX(box), label);
    if (list->ordered && count > 1) {
        add_icon(box, "go-up-symbolic", _("Earlier"), index > 0,
                 (ListButton){details, list, index, -1});
        add_icon(box, "go-down-symbolic", _("Later"), index + 1 < count,
                 (ListButton){details, list, index, 1});
    }
    if (count > list->least)
        add_icon(box, "list-remove-symbolic", _(list->take_away), TRUE,
                 (ListButton){details, list, index, 0});
    gtk_box_append(details->rows, box);
    g_string_free(text, TRUE);
    g_free(number);
}

void details_add_list(PinDetails *details, const DetailList *list)
{
    const Record *record = details_record(details);
    guint count = record_list((Record *)record, list->offset)->count;
    for (guint i = 0; i < count; i++) {
        add_head(details, list, i, count);
        details_add_fields(details, list, i, list->fields, list->count);
    }
    if (count >= list->most)
        return;
    GtkWidget *button = gtk_button_new_with_label(_(list->add));
    connect(button, G_CALLBACK(on_add), (ListButton){details, list, count, 0});
    gtk_box_append(details->rows, button);
}
