/* The rows of the details, and what is done when something is typed in one. */
#include "editor/details-private.h"

#include "editor/field-row.h"
#include "editor/intl.h"
#include "trade/typed.h"

void details_bound_free(gpointer data)
{
    Bound *bound = data;
    /* A row that loses the focus while it goes may not change anything any more. */
    g_signal_handlers_disconnect_by_data(bound->widget, bound);
    g_clear_pointer(&bound->records, g_array_unref);
    g_free(bound);
}

/* --- changing --------------------------------------------------------------------------------- */

static void on_typed(PinFieldRow *row, const char *text, Bound *bound)
{
    PinDetails *details = bound->details;
    const Record *record = details_record(details);
    char taken_as[TYPED_TAKEN_AS];
    Error error;
    if (!record || details->filling)
        return;
    Record *after = record_copy(record, record->id);
    if (!detail_read(details->document, after, &bound->spot, text, taken_as, &error)) {
        record_unref(after);
        pin_field_row_refuse(row, &error);
        return;
    }
    /* The plate has the last word: what it refuses is said at the field. */
    Edit edit = EDIT_EMPTY;
    edit_set_name(&edit, _("Change"));
    edit_add(&edit, record_ref((Record *)record), after);
    bool ok = session_do(pin_document_session(details->document), &edit, &error);
    edit_clear(&edit);
    if (!ok) {
        pin_field_row_refuse(row, &error);
        return;
    }
    pin_field_row_say(row, taken_as);
    pin_document_changed(details->document);
}

/* --- building the rows ------------------------------------------------------------------------ */

void details_add_heading(PinDetails *details, const char *text)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_add_css_class(label, "group-heading");
    gtk_box_append(details->rows, label);
}

Bound *details_bind(PinDetails *details, DetailSpot spot, GtkWidget *widget)
{
    Bound *bound = g_new0(Bound, 1);
    bound->details = details;
    bound->spot = spot;
    bound->widget = widget;
    g_ptr_array_add(details->bound, bound);
    return bound;
}

static void add_typed(PinDetails *details, DetailSpot spot, const char *name)
{
    GtkWidget *row = pin_field_row_new(name);
    if (spot.field->kind == DETAIL_TEXT || spot.field->kind == DETAIL_SIZE)
        pin_field_row_set_wide(PIN_FIELD_ROW(row));
    gtk_box_append(details->rows, row);
    g_signal_connect(row, "typed", G_CALLBACK(on_typed), details_bind(details, spot, row));
}

GtkWidget *details_named(const char *name, GtkWidget *widget)
{
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
    GtkWidget *label = gtk_label_new(name);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_mnemonic_widget(GTK_LABEL(label), widget);
    gtk_widget_set_hexpand(label, TRUE);
    gtk_widget_set_valign(widget, GTK_ALIGN_CENTER);
    gtk_box_append(GTK_BOX(box), label);
    gtk_box_append(GTK_BOX(box), widget);
    gtk_accessible_update_relation(GTK_ACCESSIBLE(widget), GTK_ACCESSIBLE_RELATION_LABELLED_BY,
                                   label, NULL, -1);
    return box;
}

static void add_place(PinDetails *details, DetailSpot spot)
{
    const Record *record = details_record(details);
    add_typed(details, spot, detail_place_name(record, FALSE));
    spot.y = TRUE;
    add_typed(details, spot, detail_place_name(record, TRUE));
}

GtkWidget *details_add_button(PinDetails *details, const char *text, GCallback pressed)
{
    GtkWidget *button = gtk_button_new_with_label(text);
    g_signal_connect_swapped(button, "clicked", pressed, details);
    gtk_box_append(details->rows, button);
    return button;
}

static void add_field(PinDetails *details, DetailSpot spot)
{
    switch (spot.field->kind) {
    case DETAIL_LIST:
        details_add_list(details, spot.field->list);
        break;
    case DETAIL_HEADING:
        details_add_heading(details, _(spot.field->name));
        break;
    case DETAIL_PLACE:
        add_place(details, spot);
        break;
    case DETAIL_CHOICE:
        details_add_choice(details, spot);
        break;
    case DETAIL_PART_HOLE:
        details_add_part_hole(details, spot);
        break;
    case DETAIL_BOOL:
        details_add_check(details, spot);
        break;
    case DETAIL_RECORD:
        details_add_record_choice(details, spot);
        break;
    case DETAIL_RECORDS:
        details_add_record_checks(details, spot);
        break;
    default:
        add_typed(details, spot, _(spot.field->name));
    }
}

void details_add_fields(PinDetails *details, const DetailList *list, guint index,
                        const DetailField *fields, size_t count)
{
    const Record *record = details_record(details);
    for (size_t i = 0; i < count; i++) {
        DetailSpot spot = {&fields[i], list, index, FALSE};
        const void *body = detail_body(record, &spot);
        if (body && (!fields[i].applies || fields[i].applies(body)))
            add_field(details, spot);
    }
}

void details_add_record(PinDetails *details, const Record *record)
{
    size_t count;
    const DetailField *fields = detail_fields(record->kind, &count);
    details_add_fields(details, NULL, 0, fields, count);
    details_add_extras(details, record);
}
