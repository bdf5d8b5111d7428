#include "editor/details-private.h"

#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/layout-feature.h"

G_DEFINE_FINAL_TYPE(PinDetails, pin_details, GTK_TYPE_WIDGET)

const Record *details_record(PinDetails *details)
{
    return plate_find(pin_document_plate(details->document), details->shown);
}

/* --- keeping up ------------------------------------------------------------------------------- */

/* All that decides which fields there are: when it changes they are built anew. */
static void add_shape(GString *shape, const Record *record, DetailWithin within, guint index,
                      const DetailField *fields, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        DetailSpot spot = {&fields[i], within, index, FALSE};
        const void *body = detail_body(record, &spot);
        g_string_append_c(shape,
                          body && (!fields[i].applies || fields[i].applies(body)) ? '1' : '0');
    }
    g_string_append_c(shape, '/');
}

static void add_shape_records(PinDetails *details, GString *shape, const Record *record)
{
    /* Lists of records have their names in them. */
    if (record->kind != RECORD_STATION && record->kind != RECORD_FITTING &&
        record->kind != RECORD_SETTINGS)
        return;
    const Plate *plate = pin_document_plate(details->document);
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *other = plate_at(plate, i);
        if (other->kind == RECORD_PART || other->kind == RECORD_STATION ||
            other->kind == RECORD_HOLE) {
            const char *name = other->kind == RECORD_PART ? other->part.name : record_label(other);
            g_string_append_printf(shape, "%u%s", other->id, name ? name : "");
        }
    }
}

static char *shape_now(PinDetails *details)
{
    const Record *record = details_record(details);
    GString *shape = g_string_new(NULL);
    if (!record)
        return g_string_free(shape, FALSE);
    size_t count;
    g_string_append_printf(shape, "%u ", record->id);
    const DetailField *fields = detail_fields(record->kind, &count);
    add_shape(shape, record, WITHIN_BODY, 0, fields, count);
    if (record->kind == RECORD_HOLE) {
        fields = detail_step_fields(&count);
        for (guint i = 0; i < record->hole.steps.count; i++)
            add_shape(shape, record, WITHIN_STEP, i, fields, count);
    }
    if (record->kind == RECORD_PART)
        g_string_append_printf(shape, "%u", record->part.holes.count);
    add_shape_records(details, shape, record);
    return g_string_free(shape, FALSE);
}

static void build(PinDetails *details)
{
    GtkWidget *child;
    g_ptr_array_set_size(details->bound, 0);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(details->rows))))
        gtk_box_remove(details->rows, child);
    const Record *record = details_record(details);
    if (record)
        details_add_record(details, record);
    else
        details_add_several(details);
}

static void fill_record(Bound *bound, const Record *record)
{
    FeatureId id = *detail_record((Record *)record, &bound->spot);
    guint at = GTK_INVALID_LIST_POSITION;
    for (guint i = 0; i < bound->records->len; i++)
        if (g_array_index(bound->records, FeatureId, i) == id)
            at = i;
    gtk_drop_down_set_selected(GTK_DROP_DOWN(bound->widget), at);
}

static void fill(PinDetails *details)
{
    const Record *record = details_record(details);
    if (!record)
        return;
    details->filling = TRUE;
    for (guint i = 0; i < details->bound->len; i++) {
        Bound *bound = g_ptr_array_index(details->bound, i);
        if (!detail_body(record, &bound->spot))
            continue;
        switch (bound->spot.field->kind) {
        case DETAIL_CHOICE:
            gtk_drop_down_set_selected(GTK_DROP_DOWN(bound->widget),
                                       (guint)*detail_choice((Record *)record, &bound->spot));
            break;
        case DETAIL_BOOL:
            gtk_check_button_set_active(GTK_CHECK_BUTTON(bound->widget),
                                        *detail_bool((Record *)record, &bound->spot));
            break;
        case DETAIL_RECORD:
            fill_record(bound, record);
            break;
        default: {
            char *text = detail_text(details->document, record, &bound->spot);
            pin_field_row_set(PIN_FIELD_ROW(bound->widget), text, FALSE);
            g_free(text);
        }
        }
    }
    details->filling = FALSE;
}

static void update_heading(PinDetails *details)
{
    guint count;
    pin_document_selection(details->document, &count);
    const Record *record = details_record(details);
    char *text;
    if (!record)
        text = g_strdup_printf(_("%u things"), count);
    else if (record->kind == RECORD_SETTINGS)
        text = g_strdup(_("Plate"));
    else if (record->kind == RECORD_PART)
        text = g_strdup_printf(_("Part %s"), record->part.name ? record->part.name : "");
    else
        text = feature_words(details->document, record->id);
    text[0] = g_ascii_toupper(text[0]);
    gtk_label_set_label(details->heading, text);
    g_free(text);
}

void details_update(PinDetails *details)
{
    guint count;
    pin_document_selection(details->document, &count);
    if (details->asked != ID_NONE &&
        !plate_find(pin_document_plate(details->document), details->asked))
        details->asked = ID_NONE;
    FeatureId one = pin_document_selected_one(details->document);
    details->shown = details->asked != ID_NONE ? details->asked : count == 0 ? ID_SETTINGS : one;
    char *shape = shape_now(details);
    if (g_strcmp0(shape, details->shape) != 0) {
        g_free(details->shape);
        details->shape = shape;
        build(details);
        gtk_adjustment_set_value(
            gtk_scrolled_window_get_vadjustment(GTK_SCROLLED_WINDOW(details->scroller)), 0);
    } else {
        g_free(shape);
    }
    update_heading(details);
    fill(details);
}

static void on_selection(PinDocument *document, PinDetails *details)
{
    details->asked = ID_NONE;
    details_update(details);
}

static void on_changed(PinDocument *document, PinDetails *details)
{
    details_update(details);
}

void pin_details_show_record(PinDetails *details, FeatureId id)
{
    details->asked = id;
    if (details->document)
        details_update(details);
}

void pin_details_set_document(PinDetails *details, PinDocument *document)
{
    if (details->document) {
        g_clear_signal_handler(&details->handlers[0], details->document);
        g_clear_signal_handler(&details->handlers[1], details->document);
        g_clear_object(&details->document);
    }
    if (!document)
        return;
    details->document = g_object_ref(document);
    details->asked = ID_NONE;
    g_clear_pointer(&details->shape, g_free);
    details->handlers[0] = g_signal_connect(document, "changed", G_CALLBACK(on_changed), details);
    details->handlers[1] =
        g_signal_connect(document, "selection-changed", G_CALLBACK(on_selection), details);
    details_update(details);
}

static void pin_details_dispose(GObject *object)
{
    PinDetails *details = PIN_DETAILS(object);
    GtkWidget *child;
    g_ptr_array_set_size(details->bound, 0);
    pin_details_set_document(details, NULL);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_details_parent_class)->dispose(object);
}

static void pin_details_finalize(GObject *object)
{
    PinDetails *details = PIN_DETAILS(object);
    g_ptr_array_unref(details->bound);
    g_free(details->shape);
    G_OBJECT_CLASS(pin_details_parent_class)->finalize(object);
}

static void pin_details_class_init(PinDetailsClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_details_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_details_finalize;
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/details.ui");
    gtk_widget_class_bind_template_child(widget, PinDetails, heading);
    gtk_widget_class_bind_template_child(widget, PinDetails, scroller);
    gtk_widget_class_bind_template_child(widget, PinDetails, rows);
    gtk_widget_class_set_css_name(widget, "details");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_details_init(PinDetails *details)
{
    details->bound = g_ptr_array_new_with_free_func(details_bound_free);
    gtk_widget_init_template(GTK_WIDGET(details));
}
