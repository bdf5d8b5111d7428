#include "editor/trays-private.h"

#include "editor/access.h"
#include "editor/field-row.h"
#include "editor/hole-recipes.h"
#include "editor/intl.h"
#include "editor/speech.h"
#include "editor/tray-nest.h"
#include "editor/tray-row.h"
#include "editor/tray-station.h"
#include "session/new-hardware.h"
#include "trade/size-words.h"
#include "trade/thread.h"
#include "trade/typed.h"

#include <string.h>

G_DEFINE_FINAL_TYPE(PinTrays, pin_trays, GTK_TYPE_WIDGET)

/* --- what the items make -----------------------------------------------------------------------
 */

static bool read_row(PinTrays *trays, PinFieldRow *row, Length *length, Error *error)
{
    Error own;
    if (!pin_typed_length_read(pin_field_row_text(row), trays->unit, length, NULL, 0, &own)) {
        if (error)
            *error = own;
        return false;
    }
    if (*length <= 0)
        return error_set(error, ERROR_TYPED, NULL, "%s",
                         _("the size in the tray must be more than 0"));
    return true;
}

static bool make_drilled(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                         Error *error)
{
    PinTrays *trays = data;
    Length diameter;
    if (!read_row(trays, trays->drill, &diameter, error))
        return false;
    new_drilled_hole(session, face, at, diameter, edit);
    return true;
}

typedef struct Recipe {
    HoleRecipe kind;
    const char *size;
} Recipe;

static bool make_recipe(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                        Error *error)
{
    const Recipe *recipe = data;
    Hole hole;
    if (!hole_recipe(recipe->kind, recipe->size,
                     plate_settings(session_plate(session))->stock.thickness, &hole, error))
        return false;
    new_hole(session, face, at, &hole, edit);
    schema_clear(&hole_schema, &hole);
    return true;
}

/* A pin or a screw with its hole. */
static bool make_hardware(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                          Error *error)
{
    const Recipe *recipe = data;
    Hole hole;
    const Dowel *dowel = recipe->kind == RECIPE_REAMED ? dowel_find(recipe->size, error) : NULL;
    const Thread *thread = recipe->kind == RECIPE_TAPPED ? thread_find(recipe->size, error) : NULL;
    const Screw *screw = thread ? screw_of(SCREW_SOCKET_HEAD, thread->size, error) : NULL;
    if ((!dowel && !screw) ||
        !hole_recipe(recipe->kind, recipe->size,
                     plate_settings(session_plate(session))->stock.thickness, &hole, error))
        return false;
    if (dowel)
        new_pin(session, face, at, &hole, dowel, edit);
    else
        new_hold_down(session, face, at, &hole, screw, 3 * LENGTH_MM, edit);
    schema_clear(&hole_schema, &hole);
    return true;
}

static bool make_clamp(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                       Error *error)
{
    new_edge_clamp(session, face, at, data, edit);
    return true;
}

static bool make_slot(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                      Error *error)
{
    PinTrays *trays = data;
    Length length, width, depth;
    if (!read_row(trays, trays->slot_length, &length, error) ||
        !read_row(trays, trays->slot_width, &width, error) ||
        !read_row(trays, trays->slot_depth, &depth, error))
        return false;
    if (length < width)
        return error_set(error, ERROR_TYPED, NULL, "%s",
                         _("a slot with round ends is at least as long as it is wide"));
    new_slot(session, face, at, length, width, depth, edit);
    return true;
}

static bool make_keep_clear(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                            Error *error)
{
    PinTrays *trays = data;
    Length length, width;
    if (!read_row(trays, trays->clear_length, &length, error) ||
        !read_row(trays, trays->clear_width, &width, error))
        return false;
    new_keep_clear(session, face, at, length, width, _("keep-clear"), edit);
    return true;
}

static void release_record(gpointer data)
{
    record_unref(data);
}

/* --- rows --------------------------------------------------------------------------------------
 */

static GtkWidget *add_item(PinTrays *trays, GtkListBox *list, PinTrayItem *item)
{
    return tray_row_add(list, item, trays->lettering, trays->unit);
}

/* The station that is selected, or that what is selected stands on. */
static FeatureId selected_station(PinTrays *trays)
{
    FeatureId one = pin_document_selected_one(trays->document);
    const Record *record = one ? plate_find(pin_document_plate(trays->document), one) : NULL;
    if (!record || record->kind == RECORD_STATION)
        return one;
    return record_station(record);
}

/* What belongs to a station has no use for the middle of the view. */
static void put_on_station(PinTrays *trays, PinTrayItem *item)
{
    Edit edit = EDIT_EMPTY;
    Error error;
    Session *session = pin_document_session(trays->document);
    if (pin_tray_item_make_on(item, session, selected_station(trays), &edit, &error)) {
        pin_document_do(trays->document, &edit);
        return;
    }
    session_give_back_ids(session, &edit);
    edit_clear(&edit);
    pin_document_refuse(trays->document, &error);
}

static void on_activated(GtkListBox *list, GtkListBoxRow *row, PinTrays *trays)
{
    PinTrayItem *item = tray_row_item(row);
    if (pin_tray_item_needs_station(item) && trays->document)
        put_on_station(trays, item);
    else
        g_signal_emit_by_name(trays, "wanted", item);
}

/* --- sizes -------------------------------------------------------------------------------------
 */

static void on_size_typed(PinFieldRow *row, const char *text, PinTrays *trays)
{
    Length length;
    if (!pin_field_row_length(row, trays->unit, &length))
        return;
    tray_rows_update(trays->holes);
    tray_rows_update(trays->slots);
    tray_rows_update(trays->keep_clears);
}

static PinFieldRow *add_size(PinTrays *trays, GtkBox *box, const char *name)
{
    GtkWidget *row = pin_field_row_new(name);
    g_signal_connect(row, "typed", G_CALLBACK(on_size_typed), trays);
    gtk_box_append(box, row);
    return PIN_FIELD_ROW(row);
}

static void set_size(PinFieldRow *row, const char *size)
{
    char text[LENGTH_PEOPLE_TEXT];
    g_strlcpy(text, size, sizeof text);
    pin_field_row_set(row, pin_figures(text), TRUE);
}

static void set_sizes(PinTrays *trays)
{
    gboolean inch = trays->unit == UNIT_INCH;
    set_size(trays->drill, inch ? "1/4" : "6");
    set_size(trays->slot_length, inch ? "1.5" : "40");
    set_size(trays->slot_width, inch ? "0.5" : "12");
    set_size(trays->slot_depth, inch ? "0.25" : "6");
    set_size(trays->clear_length, inch ? "1" : "25");
    set_size(trays->clear_width, inch ? "1" : "25");
}

/* --- filling the trays -------------------------------------------------------------------------
 */

static void add_recipe(PinTrays *trays, HoleRecipe kind, const char *size)
{
    static const char *const names[] = {N_("Tapped %s"), N_("Reamed %s"),
                                        N_("Screw %s, sunk head")};
    Recipe *recipe = g_new0(Recipe, 1);
    *recipe = (Recipe){kind, size};
    /* Each of the names takes the size and nothing else. */
    char **halves = g_strsplit(_(names[kind]), "%s", 2);
    char *name = g_strconcat(halves[0], size, halves[1], NULL);
    add_item(trays, trays->holes, pin_tray_item_new(name, make_recipe, recipe, g_free));
    g_strfreev(halves);
    g_free(name);
}

static void fill_holes(PinTrays *trays)
{
    static const Recipe inch[] = {
        {RECIPE_TAPPED, "8-32"}, {RECIPE_TAPPED, "10-32"}, {RECIPE_TAPPED, "1/4-20"},
        {RECIPE_REAMED, "3/16"}, {RECIPE_REAMED, "1/4"},   {RECIPE_SCREW, "1/4"},
    };
    static const Recipe mm[] = {
        {RECIPE_TAPPED, "M4"},  {RECIPE_TAPPED, "M5"},  {RECIPE_TAPPED, "M6"},
        {RECIPE_REAMED, "5mm"}, {RECIPE_REAMED, "6mm"}, {RECIPE_SCREW, "M6"},
    };
    tray_rows_clear(trays->holes);
    add_item(trays, trays->holes,
             pin_tray_item_new(_("Drilled through"), make_drilled, trays, NULL));
    for (gsize i = 0; i < G_N_ELEMENTS(inch); i++) {
        const Recipe *recipe = trays->unit == UNIT_INCH ? &inch[i] : &mm[i];
        add_recipe(trays, recipe->kind, recipe->size);
    }
}

static void add_hardware(PinTrays *trays, HoleRecipe kind, const char *name, const char *size)
{
    Recipe *recipe = g_new0(Recipe, 1);
    *recipe = (Recipe){kind, size};
    char *text = g_strconcat(name, " ", size, NULL);
    add_item(trays, trays->hardware, pin_tray_item_new(text, make_hardware, recipe, g_free));
    g_free(text);
}

static void fill_hardware(PinTrays *trays)
{
    static const Recipe inch[] = {{RECIPE_TAPPED, "8-32"},
                                  {RECIPE_TAPPED, "10-32"},
                                  {RECIPE_TAPPED, "1/4-20"},
                                  {RECIPE_REAMED, "3/16"},
                                  {RECIPE_REAMED, "1/4"}};
    static const Recipe mm[] = {{RECIPE_TAPPED, "M4"},
                                {RECIPE_TAPPED, "M5"},
                                {RECIPE_TAPPED, "M6"},
                                {RECIPE_REAMED, "5mm"},
                                {RECIPE_REAMED, "6mm"}};
    tray_rows_clear(trays->hardware);
    for (gsize i = 0; i < G_N_ELEMENTS(inch); i++) {
        const Recipe *recipe = trays->unit == UNIT_INCH ? &inch[i] : &mm[i];
        add_hardware(trays, recipe->kind,
                     recipe->kind == RECIPE_TAPPED ? _("Hold-down") : _("Dowel"), recipe->size);
    }
    tray_rows_clear(trays->clamps);
    for (size_t i = 0; i < clamp_count(); i++) {
        const Clamp *clamp = clamp_at(i);
        gboolean inch_size = g_str_has_suffix(clamp->name, " in");
        if (inch_size != (trays->unit == UNIT_INCH))
            continue;
        char name[80];
        size_said(clamp->name, pin_speech(), name, sizeof name);
        name[0] = g_ascii_toupper(name[0]);
        add_item(trays, trays->clamps, pin_tray_item_new(name, make_clamp, (gpointer)clamp, NULL));
    }
}

static void fill_others(PinTrays *trays)
{
    fill_hardware(trays);
    tray_rows_clear(trays->slots);
    add_item(trays, trays->slots, pin_tray_item_new(_("Slot"), make_slot, trays, NULL));
    add_item(trays, trays->slots, tray_nest_item_new());
    for (int offer = 0; offer < NEST_OFFERS; offer++)
        add_item(trays, trays->slots, tray_offer_item_new((NestOffer)offer));
    tray_rows_clear(trays->keep_clears);
    add_item(trays, trays->keep_clears,
             pin_tray_item_new(_("Keep-clear"), make_keep_clear, trays, NULL));
}

/* --- search ------------------------------------------------------------------------------------
 */

static gboolean is_called(GtkListBoxRow *row, PinTrays *trays)
{
    char *name = g_utf8_casefold(pin_tray_item_name(tray_row_item(row)), -1);
    char *typed = g_utf8_casefold(gtk_editable_get_text(GTK_EDITABLE(trays->search)), -1);
    gboolean found = strstr(name, typed) != NULL;
    g_free(typed);
    g_free(name);
    return found;
}

/* A part of the rack that the plate has already stands among the plate's own. */
static gboolean is_on_plate(GtkListBoxRow *row, PinTrays *trays)
{
    const Record *record = g_object_get_data(G_OBJECT(row), "record");
    for (guint i = 0; record && trays->shown_parts && i < trays->shown_parts->len; i++) {
        const Record *own = trays->shown_parts->pdata[i];
        if (schema_equal(&part_schema, &own->part, &record->part))
            return TRUE;
    }
    return FALSE;
}

static gboolean is_shown(GtkListBoxRow *row, gpointer trays)
{
    return is_called(row, trays) && !is_on_plate(row, trays);
}

static gboolean has_shown(PinTrays *trays, GtkListBox *list)
{
    GtkListBoxRow *row;
    for (int i = 0; (row = gtk_list_box_get_row_at_index(list, i)); i++)
        if (is_shown(row, trays))
            return TRUE;
    return FALSE;
}

/* Trays with nothing of that name make room. */
void trays_show_sections(PinTrays *trays)
{
    gboolean all = !*gtk_editable_get_text(GTK_EDITABLE(trays->search));
    GtkWidget *rack = GTK_WIDGET(trays->rack);
    gtk_widget_set_visible(gtk_widget_get_ancestor(rack, GTK_TYPE_SCROLLED_WINDOW),
                           has_shown(trays, trays->rack));
    struct {
        GtkWidget *section;
        GtkListBox *list, *other;
    } sections[] = {
        {trays->parts_section, trays->parts, trays->rack},
        {trays->holes_section, trays->holes, NULL},
        {trays->slots_section, trays->slots, NULL},
        {trays->hardware_section, trays->hardware, NULL},
        {trays->clamps_section, trays->clamps, NULL},
        {trays->keep_clears_section, trays->keep_clears, NULL},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(sections); i++)
        gtk_widget_set_visible(sections[i].section,
                               all || has_shown(trays, sections[i].list) ||
                                   (sections[i].other && has_shown(trays, sections[i].other)));
}

static void on_search(GtkSearchEntry *entry, PinTrays *trays)
{
    GtkListBox *lists[] = {trays->holes,    trays->slots,  trays->parts,      trays->rack,
                           trays->hardware, trays->clamps, trays->keep_clears};
    for (gsize i = 0; i < G_N_ELEMENTS(lists); i++)
        gtk_list_box_invalidate_filter(lists[i]);
    trays_show_sections(trays);
}

static GPtrArray *parts_of(PinTrays *trays)
{
    GPtrArray *parts = g_ptr_array_new_with_free_func(release_record);
    const Plate *plate = pin_document_plate(trays->document);
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (plate_at(plate, i)->kind == RECORD_PART)
            g_ptr_array_add(parts, record_ref((Record *)plate_at(plate, i)));
    return parts;
}

static gboolean same_parts(const GPtrArray *a, const GPtrArray *b)
{
    if (!a || !b || a->len != b->len)
        return FALSE;
    for (guint i = 0; i < a->len; i++)
        if (a->pdata[i] != b->pdata[i])
            return FALSE;
    return TRUE;
}

static void fill_parts(PinTrays *trays)
{
    GPtrArray *parts = parts_of(trays);
    if (same_parts(parts, trays->shown_parts)) {
        g_ptr_array_unref(parts);
        return;
    }
    g_clear_pointer(&trays->shown_parts, g_ptr_array_unref);
    trays->shown_parts = parts;
    tray_rows_clear(trays->parts);
    for (guint i = 0; i < parts->len; i++) {
        Record *record = parts->pdata[i];
        const char *name = record->part.name ? record->part.name : _("part");
        add_item(trays, trays->parts, tray_station_item_new(name, record, trays->with_nest));
    }
    gtk_list_box_invalidate_filter(trays->rack);
    trays_show_sections(trays);
}

/* --- the document ------------------------------------------------------------------------------
 */

static void on_changed(PinDocument *document, PinTrays *trays)
{
    if (pin_document_unit(document) != trays->unit) {
        trays->unit = pin_document_unit(document);
        set_sizes(trays);
        fill_holes(trays);
        fill_others(trays);
    }
    fill_parts(trays);
    trays_watch_rack(trays);
}

void pin_trays_set_document(PinTrays *trays, PinDocument *document)
{
    if (trays->document) {
        g_clear_signal_handler(&trays->handler, trays->document);
        g_clear_object(&trays->document);
    }
    trays_leave_rack(trays);
    if (!document)
        return;
    trays->document = g_object_ref(document);
    trays->unit = pin_document_unit(document);
    set_sizes(trays);
    fill_holes(trays);
    fill_others(trays);
    fill_parts(trays);
    trays_watch_rack(trays);
    trays->handler = g_signal_connect(document, "changed", G_CALLBACK(on_changed), trays);
}

static void on_with_nest(GtkCheckButton *button, PinTrays *trays)
{
    tray_rows_update(trays->parts);
    tray_rows_update(trays->rack);
}

/* --- the widget --------------------------------------------------------------------------------
 */

static void pin_trays_dispose(GObject *object)
{
    GtkWidget *child;
    pin_trays_set_document(PIN_TRAYS(object), NULL);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_trays_parent_class)->dispose(object);
}

static void pin_trays_finalize(GObject *object)
{
    PinTrays *trays = PIN_TRAYS(object);
    g_clear_pointer(&trays->shown_parts, g_ptr_array_unref);
    g_free(trays->chosen_folder);
    lettering_unref(trays->lettering);
    G_OBJECT_CLASS(pin_trays_parent_class)->finalize(object);
}

static void pin_trays_class_init(PinTraysClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_trays_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_trays_finalize;
    g_signal_new("wanted", PIN_TYPE_TRAYS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                 PIN_TYPE_TRAY_ITEM);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/trays.ui");
    gtk_widget_class_bind_template_child(widget, PinTrays, parts_section);
    gtk_widget_class_bind_template_child(widget, PinTrays, holes_section);
    gtk_widget_class_bind_template_child(widget, PinTrays, slots_section);
    gtk_widget_class_bind_template_child(widget, PinTrays, hardware_section);
    gtk_widget_class_bind_template_child(widget, PinTrays, clamps_section);
    gtk_widget_class_bind_template_child(widget, PinTrays, keep_clears_section);
    gtk_widget_class_bind_template_child(widget, PinTrays, hole_sizes);
    gtk_widget_class_bind_template_child(widget, PinTrays, slot_sizes);
    gtk_widget_class_bind_template_child(widget, PinTrays, keep_clear_sizes);
    gtk_widget_class_bind_template_child(widget, PinTrays, holes);
    gtk_widget_class_bind_template_child(widget, PinTrays, slots);
    gtk_widget_class_bind_template_child(widget, PinTrays, parts);
    gtk_widget_class_bind_template_child(widget, PinTrays, rack);
    gtk_widget_class_bind_template_child(widget, PinTrays, rack_note);
    gtk_widget_class_bind_template_child(widget, PinTrays, rack_button);
    gtk_widget_class_bind_template_child(widget, PinTrays, hardware);
    gtk_widget_class_bind_template_child(widget, PinTrays, clamps);
    gtk_widget_class_bind_template_child(widget, PinTrays, search);
    gtk_widget_class_bind_template_child(widget, PinTrays, with_nest);
    gtk_widget_class_bind_template_child(widget, PinTrays, keep_clears);
    gtk_widget_class_set_css_name(widget, "trays");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_trays_init(PinTrays *trays)
{
    gtk_widget_init_template(GTK_WIDGET(trays));
    access_check(GTK_WIDGET(trays->with_nest));
    trays->lettering = lettering_new(NULL);
    trays->drill = add_size(trays, trays->hole_sizes, _("Drill"));
    trays->slot_length = add_size(trays, trays->slot_sizes, _("Length"));
    trays->slot_width = add_size(trays, trays->slot_sizes, _("Width"));
    trays->slot_depth = add_size(trays, trays->slot_sizes, _("Depth"));
    trays->clear_length = add_size(trays, trays->keep_clear_sizes, _("Length"));
    trays->clear_width = add_size(trays, trays->keep_clear_sizes, _("Width"));
    GtkListBox *lists[] = {trays->holes,    trays->slots,  trays->parts,      trays->rack,
                           trays->hardware, trays->clamps, trays->keep_clears};
    for (gsize i = 0; i < G_N_ELEMENTS(lists); i++) {
        g_signal_connect(lists[i], "row-activated", G_CALLBACK(on_activated), trays);
        gtk_list_box_set_filter_func(lists[i], is_shown, trays, NULL);
    }
    g_signal_connect(trays->search, "search-changed", G_CALLBACK(on_search), trays);
    g_signal_connect(trays->with_nest, "toggled", G_CALLBACK(on_with_nest), trays);
    g_signal_connect(trays->rack_button, "clicked", G_CALLBACK(trays_choose_rack), trays);
}
