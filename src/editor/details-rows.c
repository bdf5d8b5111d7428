/* The rows of the details, and what is done when something is typed or chosen in one. */
#include "editor/details-private.h"

#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/layout-feature.h"
#include "session/new-things.h"
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

static void on_chosen(GtkDropDown *drop_down, GParamSpec *property, Bound *bound)
{
    PinDetails *details = bound->details;
    const Record *record = details_record(details);
    guint chosen = gtk_drop_down_get_selected(drop_down);
    if (!record || details->filling || chosen == GTK_INVALID_LIST_POSITION)
        return;
    Record *after = record_copy(record, record->id);
    if (bound->spot.field->kind == DETAIL_CHOICE)
        *detail_choice(after, &bound->spot) = (int)chosen;
    else if (chosen < bound->records->len)
        *detail_record(after, &bound->spot) = g_array_index(bound->records, FeatureId, chosen);
    if (record->kind == RECORD_SETTINGS && after->settings.datum.kind == DATUM_HOLE &&
        after->settings.datum.hole == ID_NONE) {
        /* A datum that is a hole needs one: the first there is, until another is chosen. */
        const Plate *plate = pin_document_plate(details->document);
        for (uint32_t i = 0; i < plate_count(plate); i++)
            if (plate_at(plate, i)->kind == RECORD_HOLE) {
                after->settings.datum.hole = plate_at(plate, i)->id;
                break;
            }
    }
    if (!pin_document_change(details->document, _("Change"), after))
        details_update(details);
}

static void on_checked(GtkCheckButton *check, Bound *bound)
{
    PinDetails *details = bound->details;
    const Record *record = details_record(details);
    if (!record || details->filling)
        return;
    Record *after = record_copy(record, record->id);
    *detail_bool(after, &bound->spot) = gtk_check_button_get_active(check);
    if (bound->spot.within == WITHIN_STEP) {
        Step *step = LIST_AT(&after->hole.steps, Step, bound->spot.index);
        if (!step->through && step->depth <= 0) /* a blind step needs a depth to begin with */
            step->depth =
                plate_settings(pin_document_plate(details->document))->stock.thickness / 2;
    }
    if (after->kind == RECORD_RECESS && !after->recess.through && after->recess.depth <= 0)
        after->recess.depth =
            plate_settings(pin_document_plate(details->document))->stock.thickness / 4;
    if (!pin_document_change(details->document, _("Change"), after))
        details_update(details);
}

/* --- building the rows ------------------------------------------------------------------------ */

static void add_heading(PinDetails *details, const char *text)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_add_css_class(label, "group-heading");
    gtk_box_append(details->rows, label);
}

static Bound *bind_row(PinDetails *details, DetailSpot spot, GtkWidget *widget)
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
    g_signal_connect(row, "typed", G_CALLBACK(on_typed), bind_row(details, spot, row));
}

static GtkWidget *named(const char *name, GtkWidget *widget)
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

static void add_choice(PinDetails *details, DetailSpot spot)
{
    GtkStringList *words = gtk_string_list_new(NULL);
    for (int i = 0; spot.field->choices[i]; i++)
        gtk_string_list_append(words, _(spot.field->choices[i]));
    GtkWidget *drop_down = gtk_drop_down_new(G_LIST_MODEL(words), NULL);
    gtk_box_append(details->rows, named(_(spot.field->name), drop_down));
    g_signal_connect(drop_down, "notify::selected", G_CALLBACK(on_chosen),
                     bind_row(details, spot, drop_down));
}

static char *record_words(PinDocument *document, const Record *record)
{
    if (record->kind == RECORD_PART && record->part.name)
        return g_strdup(record->part.name);
    return feature_words(document, record->id);
}

static void add_record(PinDetails *details, DetailSpot spot)
{
    GtkStringList *words = gtk_string_list_new(NULL);
    GArray *records = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    const Plate *plate = pin_document_plate(details->document);
    FeatureId none = ID_NONE;
    if (spot.field->optional) {
        gtk_string_list_append(words, _("none"));
        g_array_append_val(records, none);
    }
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind != spot.field->of)
            continue;
        char *name = record_words(details->document, record);
        gtk_string_list_append(words, name);
        g_array_append_val(records, record->id);
        g_free(name);
    }
    GtkWidget *drop_down = gtk_drop_down_new(G_LIST_MODEL(words), NULL);
    gtk_box_append(details->rows, named(_(spot.field->name), drop_down));
    Bound *bound = bind_row(details, spot, drop_down);
    bound->records = records;
    g_signal_connect(drop_down, "notify::selected", G_CALLBACK(on_chosen), bound);
}

static void add_check(PinDetails *details, DetailSpot spot)
{
    GtkWidget *check = gtk_check_button_new_with_label(_(spot.field->name));
    gtk_box_append(details->rows, check);
    g_signal_connect(check, "toggled", G_CALLBACK(on_checked), bind_row(details, spot, check));
}

static void add_place(PinDetails *details, DetailSpot spot)
{
    gboolean on_part = record_station(details_record(details)) != ID_NONE;
    add_typed(details, spot, on_part ? _("X in the part") : _("X from the datum"));
    spot.y = TRUE;
    add_typed(details, spot, on_part ? _("Y in the part") : _("Y from the datum"));
}

static void add_steps(PinDetails *details, const Record *record);

static void add_field(PinDetails *details, DetailSpot spot)
{
    switch (spot.field->kind) {
    case DETAIL_STEPS:
        add_steps(details, details_record(details));
        break;
    case DETAIL_HEADING:
        add_heading(details, _(spot.field->name));
        break;
    case DETAIL_PLACE:
        add_place(details, spot);
        break;
    case DETAIL_CHOICE:
        add_choice(details, spot);
        break;
    case DETAIL_BOOL:
        add_check(details, spot);
        break;
    case DETAIL_RECORD:
        add_record(details, spot);
        break;
    default:
        add_typed(details, spot, _(spot.field->name));
    }
}

static void add_fields(PinDetails *details, DetailWithin within, guint index,
                       const DetailField *fields, size_t count)
{
    const Record *record = details_record(details);
    for (size_t i = 0; i < count; i++) {
        DetailSpot spot = {&fields[i], within, index, FALSE};
        const void *body = detail_body(record, &spot);
        if (body && (!fields[i].applies || fields[i].applies(body)))
            add_field(details, spot);
    }
}

/* --- more than fields ------------------------------------------------------------------------- */

static GtkWidget *add_button(PinDetails *details, const char *text, GCallback pressed)
{
    GtkWidget *button = gtk_button_new_with_label(text);
    g_signal_connect_swapped(button, "clicked", pressed, details);
    gtk_box_append(details->rows, button);
    return button;
}

static void on_add_step(PinDetails *details)
{
    const Record *record = details_record(details);
    if (!record || record->kind != RECORD_HOLE)
        return;
    Record *after = record_copy(record, record->id);
    const Step *last = LIST_AT(&record->hole.steps, Step, record->hole.steps.count - 1);
    Step *step = list_append(&after->hole.steps, Step);
    *step =
        (Step){.kind = STEP_COUNTERBORE,
               .diameter = hole_largest_diameter(&record->hole) + last->diameter / 2,
               .depth = plate_settings(pin_document_plate(details->document))->stock.thickness / 4};
    pin_document_change(details->document, _("Add a step"), after);
}

static void on_remove_step(GtkButton *button, PinDetails *details)
{
    guint index = GPOINTER_TO_UINT(g_object_get_data(G_OBJECT(button), "index"));
    const Record *record = details_record(details);
    if (!record || record->kind != RECORD_HOLE || index >= record->hole.steps.count)
        return;
    /* The steps that stay, read again from a record without that one. */
    Record *after = record_copy(record, record->id);
    List *steps = &after->hole.steps;
    Step *items = steps->items, gone = items[index];
    for (guint i = index; i + 1 < steps->count; i++)
        items[i] = items[i + 1];
    steps->count--;
    g_free(gone.thread);
    g_free(gone.unknown);
    pin_document_change(details->document, _("Take a step away"), after);
}

static void add_steps(PinDetails *details, const Record *record)
{
    size_t count;
    const DetailField *fields = detail_step_fields(&count);
    for (guint i = 0; i < record->hole.steps.count; i++) {
        GtkWidget *box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
        char *text = g_strdup_printf(_("Step %u"), i + 1);
        GtkWidget *label = gtk_label_new(text);
        gtk_label_set_xalign(GTK_LABEL(label), 0);
        gtk_widget_set_hexpand(label, TRUE);
        gtk_widget_add_css_class(label, "group-heading");
        gtk_box_append(GTK_BOX(box), label);
        if (record->hole.steps.count > 1) {
            GtkWidget *button = gtk_button_new_from_icon_name("list-remove-symbolic");
            gtk_widget_set_tooltip_text(button, _("Take this step away"));
            gtk_widget_add_css_class(button, "flat");
            g_object_set_data(G_OBJECT(button), "index", GUINT_TO_POINTER(i));
            g_signal_connect(button, "clicked", G_CALLBACK(on_remove_step), details);
            gtk_box_append(GTK_BOX(box), button);
        }
        gtk_box_append(details->rows, box);
        add_fields(details, WITHIN_STEP, i, fields, count);
        g_free(text);
    }
    if (record->hole.steps.count < STEPS_MOST)
        add_button(details, _("Add a step"), G_CALLBACK(on_add_step));
}

static void on_show_part(PinDetails *details)
{
    const Record *record = details_record(details);
    if (record && record->kind == RECORD_STATION)
        pin_details_show_record(details, record->station.part);
}

static void on_show_selection(PinDetails *details)
{
    pin_details_show_record(details, ID_NONE);
}

static void on_add_nest(PinDetails *details)
{
    const Record *record = details_record(details);
    if (!record || record->kind != RECORD_STATION)
        return;
    Session *session = pin_document_session(details->document);
    Unit unit = pin_document_unit(details->document);
    Length clearance = unit == UNIT_INCH ? LENGTH_INCH / 100 : LENGTH_MM / 4;
    Length depth = unit == UNIT_INCH ? LENGTH_INCH / 32 : LENGTH_MM;
    Edit edit = EDIT_EMPTY;
    new_nest(session, record->station.face, record->id, clearance, depth, &edit);
    pin_document_do(details->document, &edit);
}

static void add_part_size(PinDetails *details, const Record *record)
{
    const Outline *outline =
        placed_outline(session_placed(pin_document_session(details->document)), record->id);
    if (!outline)
        return;
    Box box = outline_box(outline);
    char length[LENGTH_PEOPLE_TEXT], width[LENGTH_PEOPLE_TEXT];
    length_text(length_from_mm(box.x1 - box.x0), pin_document_unit(details->document), length);
    length_text_with_unit(length_from_mm(box.y1 - box.y0), pin_document_unit(details->document),
                          width);
    char *text = g_strdup_printf(_("Outline %s × %s"), length, width);
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_box_append(details->rows, label);
    g_free(text);
}

static void add_part_holes(PinDetails *details, const Record *record)
{
    size_t count;
    const DetailField *fields = detail_part_hole_fields(&count);
    for (guint i = 0; i < record->part.holes.count; i++) {
        char *text = g_strdup_printf(_("Hole %u of the part"), i + 1);
        add_heading(details, text);
        g_free(text);
        add_fields(details, WITHIN_PART_HOLE, i, fields, count);
    }
}

static void add_extras(PinDetails *details, const Record *record)
{
    switch (record->kind) {
    case RECORD_STATION:
        add_button(details, _("Figures of the part"), G_CALLBACK(on_show_part));
        add_button(details, _("Add a nest"), G_CALLBACK(on_add_nest));
        break;
    case RECORD_PART:
        add_part_size(details, record);
        add_part_holes(details, record);
        add_button(details, _("Back to the selection"), G_CALLBACK(on_show_selection));
        break;
    default:
        break;
    }
}

void details_add_record(PinDetails *details, const Record *record)
{
    size_t count;
    const DetailField *fields = detail_fields(record->kind, &count);
    add_fields(details, WITHIN_BODY, 0, fields, count);
    add_extras(details, record);
}
