#include "editor/details.h"

#include "checks/sentence.h"
#include "editor/detail-value.h"
#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/layout-feature.h"
#include "session/new-things.h"
#include "session/selection.h"
#include "trade/typed.h"

struct _PinDetails {
    GtkWidget parent_instance;
    GtkLabel *heading;
    GtkWidget *scroller;
    GtkBox *rows;
    PinDocument *document;
    gulong handlers[2];
    FeatureId asked;  /* a record shown in place of the selection */
    FeatureId shown;  /* ID_NONE: several things */
    char *shape;      /* which fields there are: another shape is built anew */
    GPtrArray *bound; /* Bound */
    gboolean filling;
};

/* A field and the widget that shows it. */
typedef struct Bound {
    PinDetails *details;
    DetailSpot spot;
    GtkWidget *widget;
    GArray *records; /* FeatureId, of a list of records */
} Bound;

G_DEFINE_FINAL_TYPE(PinDetails, pin_details, GTK_TYPE_WIDGET)

static void update(PinDetails *details);

static void bound_free(gpointer data)
{
    Bound *bound = data;
    /* A row that loses the focus while it goes may not change anything any more. */
    g_signal_handlers_disconnect_by_data(bound->widget, bound);
    g_clear_pointer(&bound->records, g_array_unref);
    g_free(bound);
}

static const Record *record_of(PinDetails *details)
{
    return plate_find(pin_document_plate(details->document), details->shown);
}

/* --- changing --------------------------------------------------------------------------------- */

static void on_typed(PinFieldRow *row, const char *text, Bound *bound)
{
    PinDetails *details = bound->details;
    const Record *record = record_of(details);
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
    const Record *record = record_of(details);
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
        update(details);
}

static void on_checked(GtkCheckButton *check, Bound *bound)
{
    PinDetails *details = bound->details;
    const Record *record = record_of(details);
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
        update(details);
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
    gboolean on_part = record_station(record_of(details)) != ID_NONE;
    add_typed(details, spot, on_part ? _("X in the part") : _("X from the datum"));
    spot.y = TRUE;
    add_typed(details, spot, on_part ? _("Y in the part") : _("Y from the datum"));
}

static void add_steps(PinDetails *details, const Record *record);

static void add_field(PinDetails *details, DetailSpot spot)
{
    switch (spot.field->kind) {
    case DETAIL_STEPS:
        add_steps(details, record_of(details));
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
    const Record *record = record_of(details);
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
    const Record *record = record_of(details);
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
    const Record *record = record_of(details);
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
    const Record *record = record_of(details);
    if (record && record->kind == RECORD_STATION)
        pin_details_show_record(details, record->station.part);
}

static void on_show_selection(PinDetails *details)
{
    pin_details_show_record(details, ID_NONE);
}

static void on_add_nest(PinDetails *details)
{
    const Record *record = record_of(details);
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

/* --- several things --------------------------------------------------------------------------- */

static void on_move_by(PinFieldRow *row, const char *text, PinDetails *details)
{
    gboolean y = GPOINTER_TO_INT(g_object_get_data(G_OBJECT(row), "y"));
    Length by;
    guint count;
    const FeatureId *ids = pin_document_selection(details->document, &count);
    Edit edit = EDIT_EMPTY;
    Error error;
    if (!*text || !pin_field_row_length(row, pin_document_unit(details->document), &by))
        return;
    if (!selection_move(pin_document_session(details->document), ids, count, y ? 0 : by, y ? by : 0,
                        &edit, &error)) {
        pin_field_row_refuse(row, &error);
        return;
    }
    pin_document_do(details->document, &edit);
    pin_field_row_set(row, "", TRUE);
}

static Place middle_of(PinDetails *details)
{
    const Placed *placed = session_placed(pin_document_session(details->document));
    guint count;
    const FeatureId *ids = pin_document_selection(details->document, &count);
    Box box = BOX_EMPTY;
    for (guint i = 0; i < count; i++) {
        const Feature *feature = placed_find(placed, ids[i]);
        if (feature)
            box = box_union(box, feature->box);
    }
    return (Place){length_from_mm((box.x0 + box.x1) / 2), length_from_mm((box.y0 + box.y1) / 2)};
}

static void on_turn_by(PinFieldRow *row, const char *text, PinDetails *details)
{
    Angle by;
    guint count;
    const FeatureId *ids = pin_document_selection(details->document, &count);
    Edit edit = EDIT_EMPTY;
    Error error;
    if (!*text)
        return;
    if (!typed_angle_read(text, &by, &error) ||
        !selection_turn(pin_document_session(details->document), ids, count, middle_of(details), by,
                        &edit, &error)) {
        pin_field_row_refuse(row, &error);
        return;
    }
    pin_document_do(details->document, &edit);
    pin_field_row_set(row, "", TRUE);
}

static void add_group_row(PinDetails *details, const char *name, GCallback typed, gboolean y)
{
    GtkWidget *row = pin_field_row_new(name);
    g_object_set_data(G_OBJECT(row), "y", GINT_TO_POINTER(y));
    g_signal_connect(row, "typed", typed, details);
    gtk_box_append(details->rows, row);
}

static void build_group(PinDetails *details)
{
    add_group_row(details, _("Move along X by"), G_CALLBACK(on_move_by), FALSE);
    add_group_row(details, _("Move along Y by"), G_CALLBACK(on_move_by), TRUE);
    add_group_row(details, _("Turn about the middle by"), G_CALLBACK(on_turn_by), FALSE);
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
    const Record *record = record_of(details);
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
    const Record *record = record_of(details);
    if (!record) {
        build_group(details);
        return;
    }
    size_t count;
    const DetailField *fields = detail_fields(record->kind, &count);
    add_fields(details, WITHIN_BODY, 0, fields, count);
    add_extras(details, record);
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
    const Record *record = record_of(details);
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
    const Record *record = record_of(details);
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

static void update(PinDetails *details)
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
    update(details);
}

static void on_changed(PinDocument *document, PinDetails *details)
{
    update(details);
}

void pin_details_show_record(PinDetails *details, FeatureId id)
{
    details->asked = id;
    if (details->document)
        update(details);
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
    update(details);
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
    details->bound = g_ptr_array_new_with_free_func(bound_free);
    gtk_widget_init_template(GTK_WIDGET(details));
}
