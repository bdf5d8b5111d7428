#include "editor/details-private.h"

#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/layout-feature.h"
#include "editor/record-list.h"

G_DEFINE_FINAL_TYPE(PinDetails, pin_details, GTK_TYPE_WIDGET)

const Record *details_record(PinDetails *details)
{
    return plate_find(pin_document_plate(details->document), details->shown);
}

/* --- keeping up ------------------------------------------------------------------------------- */

/* All that decides which fields there are: when it changes they are built anew. */

/* Choices of records have their names in them. */
static void add_names(PinDetails *details, GString *shape, RecordKind kind)
{
    const Plate *plate = pin_document_plate(details->document);
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind != kind)
            continue;
        const char *name = kind == RECORD_PART        ? record->part.name
                           : kind == RECORD_FACE      ? record->face.name
                           : kind == RECORD_OPERATION ? record->operation.name
                                                      : record_label(record);
        g_string_append_printf(shape, "%u%s ", record->id, name ? name : "");
    }
}

static void add_part_holes(PinDetails *details, GString *shape, const Record *record)
{
    const Plate *plate = pin_document_plate(details->document);
    const Record *station = plate_find_kind(plate, record->fitting.station, RECORD_STATION);
    const Record *part =
        station ? plate_find_kind(plate, station->station.part, RECORD_PART) : NULL;
    if (part)
        g_string_append_printf(shape, "%u.%u ", part->id, part->part.holes.count);
}

static void add_fields(PinDetails *details, GString *shape, const Record *record,
                       const DetailList *list, guint index, const DetailField *fields, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        DetailSpot spot = {&fields[i], list, index, FALSE};
        const void *body = detail_body(record, &spot);
        gboolean applies = body && (!fields[i].applies || fields[i].applies(body));
        g_string_append_c(shape, applies ? '1' : '0');
        if (!applies)
            continue;
        if (fields[i].kind == DETAIL_RECORD || fields[i].kind == DETAIL_RECORDS)
            add_names(details, shape, fields[i].of);
        if (fields[i].kind == DETAIL_PART_HOLE)
            add_part_holes(details, shape, record);
        if (fields[i].kind != DETAIL_LIST)
            continue;
        const DetailList *inner = fields[i].list;
        guint items = record_list((Record *)record, inner->offset)->count;
        for (guint k = 0; k < items; k++)
            add_fields(details, shape, record, inner, k, inner->fields, inner->count);
        g_string_append_printf(shape, "/%u/", items);
    }
}

static char *shape_now(PinDetails *details)
{
    const Record *record = details_record(details);
    GString *shape = g_string_new(NULL);
    if (!record)
        return g_string_free(shape, FALSE);
    size_t count;
    g_string_append_printf(shape, "%u %u ", record->id, details->asked);
    const DetailField *fields = detail_fields(record->kind, &count);
    add_fields(details, shape, record, NULL, 0, fields, count);
    if (record->kind == RECORD_SETTINGS)
        add_names(details, shape, RECORD_BASE);
    details_add_extras_shape(details, shape, record);
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

static gboolean is_typed(DetailKind kind)
{
    return kind != DETAIL_CHOICE && kind != DETAIL_PART_HOLE && kind != DETAIL_BOOL &&
           kind != DETAIL_RECORD && kind != DETAIL_RECORDS;
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
        if (!is_typed(bound->spot.field->kind)) {
            details_fill_choice(bound, record);
            continue;
        }
        char *text = detail_text(details->document, record, &bound->spot);
        pin_field_row_set(PIN_FIELD_ROW(bound->widget), text, FALSE);
        g_free(text);
    }
    details->filling = FALSE;
}

/* --- the focus -------------------------------------------------------------------------------- */

static gboolean same_spot(const DetailSpot *a, const DetailSpot *b)
{
    return a->field == b->field && a->list == b->list && a->index == b->index && a->y == b->y;
}

/* The row that has the focus, so that it has it again when the rows are built anew. */
static DetailSpot focused(PinDetails *details)
{
    for (guint i = 0; i < details->bound->len; i++) {
        Bound *bound = g_ptr_array_index(details->bound, i);
        if (gtk_widget_get_focus_child(bound->widget) || gtk_widget_has_focus(bound->widget))
            return bound->spot;
    }
    return (DetailSpot){NULL, NULL, 0, FALSE};
}

static void give_focus(PinDetails *details, const DetailSpot *wanted)
{
    if (!wanted->field)
        return;
    for (guint i = 0; i < details->bound->len; i++) {
        Bound *bound = g_ptr_array_index(details->bound, i);
        if (same_spot(&bound->spot, wanted)) {
            gtk_widget_child_focus(bound->widget, GTK_DIR_TAB_FORWARD);
            return;
        }
    }
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
    else if (record->kind == RECORD_FACE)
        text = g_strdup_printf(_("Face %s"), record->face.name ? record->face.name : "");
    else if (record->kind == RECORD_BASE)
        text = g_strdup(record->base.name ? record->base.name : _("Base"));
    else if (record->kind == RECORD_OPERATION)
        text = g_strdup(record->operation.name ? record->operation.name : _("Operation"));
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
    gboolean anew = g_strcmp0(shape, details->shape) != 0;
    DetailSpot focus = details->wanted.field ? details->wanted : focused(details);
    gboolean other = details->shown != details->built;
    g_free(details->shape);
    details->shape = shape;
    if (anew)
        build(details);
    details->built = details->shown;
    update_heading(details);
    fill(details);
    details_mark(details);
    if (anew && other)
        gtk_adjustment_set_value(
            gtk_scrolled_window_get_vadjustment(GTK_SCROLLED_WINDOW(details->scroller)), 0);
    else if (anew)
        give_focus(details, &focus);
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
