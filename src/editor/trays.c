#include "editor/trays.h"

#include "editor/access.h"
#include "editor/field-row.h"
#include "editor/hole-recipes.h"
#include "editor/intl.h"
#include "editor/picture.h"
#include "editor/speech.h"
#include "session/new-hardware.h"
#include "trade/thread.h"
#include "trade/typed.h"

#include <string.h>

#define PICTURE_WIDTH 44
#define PICTURE_HEIGHT 26
#define PICTURE_SCALE 0.8

struct _PinTrays {
    GtkWidget parent_instance;
    GtkBox *hole_sizes, *slot_sizes, *keep_clear_sizes;
    GtkListBox *holes, *slots, *parts, *hardware, *clamps, *keep_clears;
    GtkSearchEntry *search;
    GtkCheckButton *with_nest;
    PinFieldRow *drill;
    PinFieldRow *slot_length, *slot_width, *slot_depth;
    PinFieldRow *clear_length, *clear_width;
    PinDocument *document;
    gulong handler;
    Lettering *lettering;
    GPtrArray *shown_parts; /* Record */
    Unit unit;
};

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

/* Depths are from the face, and the screws stand deeper by the nest. */
static void deepen(Hole *hole, Length by)
{
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        Step *step = LIST_AT(&hole->steps, Step, i);
        if (!step->through)
            step->depth += by;
    }
}

/* A shallow nest with room all round: the pins locate, the nest keeps chips and turning away. */
static void add_nest(PinTrays *trays, Session *session, FeatureId face, FeatureId station,
                     const Part *part, Edit *edit)
{
    Length clearance = trays->unit == UNIT_INCH ? LENGTH_INCH / 50 : LENGTH_MM / 2;
    Length step = trays->unit == UNIT_INCH ? LENGTH_INCH / 100 : LENGTH_MM / 10;
    Length depth = MAX(part->thickness / 2 / step * step, step);
    FeatureId nest = new_nest(session, face, station, clearance, depth, edit);
    for (uint32_t i = 0; i < edit->count; i++) {
        Record *record = edit->changes[i].after;
        if (record->id == nest && part->blank.length > 0)
            record->recess.kind = RECESS_BLANK_NEST;
        if (record->kind == RECORD_HOLE)
            deepen(&record->hole, depth);
    }
    edit_set_name(edit, "New station");
}

typedef struct StationItem {
    PinTrays *trays;
    Record *part;
} StationItem;

static void station_item_free(gpointer data)
{
    StationItem *item = data;
    record_unref(item->part);
    g_free(item);
}

static bool make_station(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                         Error *error)
{
    const StationItem *item = data;
    FeatureId part = new_part(session, &item->part->part, edit);
    FeatureId station = new_station(session, face, at, part, edit);
    if (station == ID_NONE)
        return false;
    if (gtk_check_button_get_active(item->trays->with_nest))
        add_nest(item->trays, session, face, station, &item->part->part, edit);
    return true;
}

static void release_record(gpointer data)
{
    record_unref(data);
}

/* --- rows --------------------------------------------------------------------------------------
 */

static GdkContentProvider *on_prepare(GtkDragSource *source, double x, double y, PinTrayItem *item)
{
    return gdk_content_provider_new_typed(PIN_TYPE_TRAY_ITEM, item);
}

static void on_drag_begin(GtkDragSource *source, GdkDrag *drag, GtkWidget *picture)
{
    GdkPaintable *paintable = gtk_widget_paintable_new(picture);
    gtk_drag_source_set_icon(source, paintable, PICTURE_WIDTH / 2, PICTURE_HEIGHT / 2);
    g_object_unref(paintable);
}

/* Takes the item over. */
static GtkWidget *add_item(PinTrays *trays, GtkListBox *list, PinTrayItem *item)
{
    GtkWidget *row = gtk_list_box_row_new();
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
    GtkWidget *picture = picture_new(item, trays->lettering, trays->unit, PICTURE_WIDTH,
                                     PICTURE_HEIGHT, PICTURE_SCALE);
    GtkWidget *label = gtk_label_new(pin_tray_item_name(item));
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_ellipsize(GTK_LABEL(label), PANGO_ELLIPSIZE_END);
    gtk_widget_set_hexpand(label, TRUE);
    gtk_box_append(GTK_BOX(box), picture);
    gtk_box_append(GTK_BOX(box), label);
    gtk_list_box_row_set_child(GTK_LIST_BOX_ROW(row), box);
    gtk_widget_set_tooltip_text(
        row, _("Drag this onto the plate, or press Enter to put it in the middle of the view"));
    access_name(row, pin_tray_item_name(item));
    access_row(row);
    g_object_set_data_full(G_OBJECT(row), "item", item, g_object_unref);
    g_object_set_data(G_OBJECT(row), "picture", picture);

    GtkDragSource *source = gtk_drag_source_new();
    gtk_drag_source_set_actions(source, GDK_ACTION_COPY);
    g_signal_connect(source, "prepare", G_CALLBACK(on_prepare), item);
    g_signal_connect(source, "drag-begin", G_CALLBACK(on_drag_begin), picture);
    gtk_widget_add_controller(row, GTK_EVENT_CONTROLLER(source));
    gtk_list_box_append(list, row);
    return row;
}

static void on_activated(GtkListBox *list, GtkListBoxRow *row, PinTrays *trays)
{
    g_signal_emit_by_name(trays, "wanted", g_object_get_data(G_OBJECT(row), "item"));
}

static void update_pictures(GtkListBox *list)
{
    GtkListBoxRow *row;
    for (int i = 0; (row = gtk_list_box_get_row_at_index(list, i)); i++)
        picture_update(g_object_get_data(G_OBJECT(row), "picture"));
}

static void clear_list(GtkListBox *list)
{
    GtkListBoxRow *row;
    while ((row = gtk_list_box_get_row_at_index(list, 0)))
        gtk_list_box_remove(list, GTK_WIDGET(row));
}

/* --- sizes -------------------------------------------------------------------------------------
 */

static void on_size_typed(PinFieldRow *row, const char *text, PinTrays *trays)
{
    Length length;
    if (!pin_field_row_length(row, trays->unit, &length))
        return;
    update_pictures(trays->holes);
    update_pictures(trays->slots);
    update_pictures(trays->keep_clears);
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
    clear_list(trays->holes);
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
    clear_list(trays->hardware);
    for (gsize i = 0; i < G_N_ELEMENTS(inch); i++) {
        const Recipe *recipe = trays->unit == UNIT_INCH ? &inch[i] : &mm[i];
        add_hardware(trays, recipe->kind,
                     recipe->kind == RECIPE_TAPPED ? _("Hold-down") : _("Dowel"), recipe->size);
    }
    clear_list(trays->clamps);
    for (size_t i = 0; i < clamp_count(); i++) {
        const Clamp *clamp = clamp_at(i);
        gboolean inch_size = g_str_has_suffix(clamp->name, " in");
        if (inch_size != (trays->unit == UNIT_INCH))
            continue;
        char *name = g_strdup(clamp->name);
        name[0] = g_ascii_toupper(name[0]);
        add_item(trays, trays->clamps, pin_tray_item_new(name, make_clamp, (gpointer)clamp, NULL));
        g_free(name);
    }
}

static void fill_others(PinTrays *trays)
{
    fill_hardware(trays);
    clear_list(trays->slots);
    add_item(trays, trays->slots, pin_tray_item_new(_("Slot"), make_slot, trays, NULL));
    clear_list(trays->keep_clears);
    add_item(trays, trays->keep_clears,
             pin_tray_item_new(_("Keep-clear"), make_keep_clear, trays, NULL));
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
    clear_list(trays->parts);
    for (guint i = 0; i < parts->len; i++) {
        Record *record = parts->pdata[i];
        const char *name = record->part.name ? record->part.name : _("part");
        StationItem *item = g_new0(StationItem, 1);
        *item = (StationItem){trays, record_ref(record)};
        add_item(trays, trays->parts,
                 pin_tray_item_new(name, make_station, item, station_item_free));
    }
}

static void on_changed(PinDocument *document, PinTrays *trays)
{
    if (pin_document_unit(document) != trays->unit) {
        trays->unit = pin_document_unit(document);
        set_sizes(trays);
        fill_holes(trays);
        fill_others(trays);
    }
    fill_parts(trays);
}

void pin_trays_set_document(PinTrays *trays, PinDocument *document)
{
    if (trays->document) {
        g_clear_signal_handler(&trays->handler, trays->document);
        g_clear_object(&trays->document);
    }
    if (!document)
        return;
    trays->document = g_object_ref(document);
    trays->unit = pin_document_unit(document);
    set_sizes(trays);
    fill_holes(trays);
    fill_others(trays);
    fill_parts(trays);
    trays->handler = g_signal_connect(document, "changed", G_CALLBACK(on_changed), trays);
}

/* --- search ------------------------------------------------------------------------------------
 */

static gboolean is_found(GtkListBoxRow *row, gpointer data)
{
    PinTrays *trays = data;
    PinTrayItem *item = g_object_get_data(G_OBJECT(row), "item");
    char *name = g_utf8_casefold(pin_tray_item_name(item), -1);
    char *typed = g_utf8_casefold(gtk_editable_get_text(GTK_EDITABLE(trays->search)), -1);
    gboolean found = strstr(name, typed) != NULL;
    g_free(typed);
    g_free(name);
    return found;
}

static void on_search(GtkSearchEntry *entry, PinTrays *trays)
{
    GtkListBox *lists[] = {trays->holes,    trays->slots,  trays->parts,
                           trays->hardware, trays->clamps, trays->keep_clears};
    for (gsize i = 0; i < G_N_ELEMENTS(lists); i++)
        gtk_list_box_invalidate_filter(lists[i]);
}

static void on_with_nest(GtkCheckButton *button, PinTrays *trays)
{
    update_pictures(trays->parts);
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
    gtk_widget_class_bind_template_child(widget, PinTrays, hole_sizes);
    gtk_widget_class_bind_template_child(widget, PinTrays, slot_sizes);
    gtk_widget_class_bind_template_child(widget, PinTrays, keep_clear_sizes);
    gtk_widget_class_bind_template_child(widget, PinTrays, holes);
    gtk_widget_class_bind_template_child(widget, PinTrays, slots);
    gtk_widget_class_bind_template_child(widget, PinTrays, parts);
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
    trays->lettering = lettering_new(NULL);
    trays->drill = add_size(trays, trays->hole_sizes, _("Drill"));
    trays->slot_length = add_size(trays, trays->slot_sizes, _("Length"));
    trays->slot_width = add_size(trays, trays->slot_sizes, _("Width"));
    trays->slot_depth = add_size(trays, trays->slot_sizes, _("Depth"));
    trays->clear_length = add_size(trays, trays->keep_clear_sizes, _("Length"));
    trays->clear_width = add_size(trays, trays->keep_clear_sizes, _("Width"));
    GtkListBox *lists[] = {trays->holes,    trays->slots,  trays->parts,
                           trays->hardware, trays->clamps, trays->keep_clears};
    for (gsize i = 0; i < G_N_ELEMENTS(lists); i++) {
        g_signal_connect(lists[i], "row-activated", G_CALLBACK(on_activated), trays);
        gtk_list_box_set_filter_func(lists[i], is_found, trays, NULL);
    }
    g_signal_connect(trays->search, "search-changed", G_CALLBACK(on_search), trays);
    g_signal_connect(trays->with_nest, "toggled", G_CALLBACK(on_with_nest), trays);
}
