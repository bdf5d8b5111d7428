#include "editor/start.h"

#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/preferences.h"
#include "editor/recent.h"
#include "plate/plate.h"

struct _PinStart {
    GtkWidget parent_instance;
    GtkDropDown *unit, *metal;
    GtkBox *sizes;
    GtkButton *create;
    GtkListBox *recent;
    GtkLabel *no_recent;
    PinFieldRow *length, *width, *thickness;
};

G_DEFINE_FINAL_TYPE(PinStart, pin_start, GTK_TYPE_WIDGET)

static Unit unit_of(PinStart *start)
{
    return gtk_drop_down_get_selected(start->unit) == 0 ? UNIT_INCH : UNIT_MM;
}

static gboolean read_size(PinStart *start, PinFieldRow *row, Length *length)
{
    Error error;
    if (!pin_field_row_length(row, unit_of(start), length))
        return FALSE;
    if (*length > 0)
        return TRUE;
    error_set(&error, ERROR_TYPED, NULL, "%s", _("a plate's size is more than 0"));
    pin_field_row_refuse(row, &error);
    return FALSE;
}

static void on_create(GtkButton *button, PinStart *start)
{
    Length length, width, thickness;
    gboolean read = read_size(start, start->length, &length);
    read = read_size(start, start->width, &width) && read;
    if (!read_size(start, start->thickness, &thickness) || !read)
        return;
    gboolean inch = unit_of(start) == UNIT_INCH;
    Plate *plate = plate_new(length, width, thickness, inch ? PLATE_INCH : PLATE_MM);
    char *shop = preference_text("shop");
    Record *settings = record_copy(plate_find(plate, ID_SETTINGS), ID_SETTINGS);
    settings->settings.stock.metal = (int)gtk_drop_down_get_selected(start->metal);
    settings->settings.standard = inch ? SHEET_STANDARD_ASME : SHEET_STANDARD_ISO;
    if (*shop) {
        g_free(settings->settings.shop);
        settings->settings.shop = g_strdup(shop);
    }
    Edit edit = EDIT_EMPTY;
    edit_add(&edit, record_ref((Record *)plate_find(plate, ID_SETTINGS)), settings);
    Error error;
    if (plate_apply(plate, &edit, NULL, NULL, &error)) {
        preference_set_text("unit", inch ? "inch" : "mm");
        g_signal_emit_by_name(start, "made", plate);
    } else {
        pin_field_row_refuse(start->thickness, &error);
        plate_free(plate);
    }
    edit_clear(&edit);
    g_free(shop);
}

static void on_typed(PinFieldRow *row, const char *text, PinStart *start)
{
    Length length;
    read_size(start, row, &length);
}

static void set_sizes(PinStart *start)
{
    gboolean inch = unit_of(start) == UNIT_INCH;
    pin_field_row_set(start->length, inch ? "8" : "200", FALSE);
    pin_field_row_set(start->width, inch ? "6" : "150", FALSE);
    pin_field_row_set(start->thickness, inch ? "0.75" : "20", FALSE);
}

static void on_unit(GtkDropDown *drop_down, GParamSpec *property, PinStart *start)
{
    set_sizes(start);
}

static PinFieldRow *add_size(PinStart *start, const char *name)
{
    GtkWidget *row = pin_field_row_new(name);
    g_signal_connect(row, "typed", G_CALLBACK(on_typed), start);
    gtk_box_append(start->sizes, row);
    return PIN_FIELD_ROW(row);
}

static void on_recent(GtkListBox *list, GtkListBoxRow *row, PinStart *start)
{
    g_signal_emit_by_name(start, "wanted", g_object_get_data(G_OBJECT(row), "path"));
}

static void fill_recent(PinStart *start)
{
    GPtrArray *paths = recent_paths();
    for (guint i = 0; i < paths->len; i++) {
        char *name = g_path_get_basename(paths->pdata[i]);
        GtkWidget *row = gtk_list_box_row_new(), *label = gtk_label_new(name);
        gtk_label_set_xalign(GTK_LABEL(label), 0);
        gtk_label_set_ellipsize(GTK_LABEL(label), PANGO_ELLIPSIZE_MIDDLE);
        gtk_list_box_row_set_child(GTK_LIST_BOX_ROW(row), label);
        gtk_widget_set_tooltip_text(row, paths->pdata[i]);
        g_object_set_data_full(G_OBJECT(row), "path", g_strdup(paths->pdata[i]), g_free);
        gtk_list_box_append(start->recent, row);
        g_free(name);
    }
    gtk_widget_set_visible(GTK_WIDGET(start->no_recent), paths->len == 0);
    gtk_widget_set_visible(GTK_WIDGET(start->recent), paths->len > 0);
    g_ptr_array_unref(paths);
}

static void pin_start_dispose(GObject *object)
{
    GtkWidget *child;
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_start_parent_class)->dispose(object);
}

static void pin_start_class_init(PinStartClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_start_dispose;
    g_signal_new("made", PIN_TYPE_START, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                 G_TYPE_POINTER);
    g_signal_new("wanted", PIN_TYPE_START, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                 G_TYPE_STRING);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/start.ui");
    gtk_widget_class_bind_template_child(widget, PinStart, unit);
    gtk_widget_class_bind_template_child(widget, PinStart, metal);
    gtk_widget_class_bind_template_child(widget, PinStart, sizes);
    gtk_widget_class_bind_template_child(widget, PinStart, create);
    gtk_widget_class_bind_template_child(widget, PinStart, recent);
    gtk_widget_class_bind_template_child(widget, PinStart, no_recent);
    gtk_widget_class_set_css_name(widget, "startpage");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_start_init(PinStart *start)
{
    gtk_widget_init_template(GTK_WIDGET(start));
    start->length = add_size(start, _("Length, along X"));
    start->width = add_size(start, _("Width, along Y"));
    start->thickness = add_size(start, _("Thickness"));
    char *unit = preference_text("unit");
    gtk_drop_down_set_selected(start->unit, g_str_equal(unit, "mm") ? 1 : 0);
    g_free(unit);
    set_sizes(start);
    fill_recent(start);
    g_signal_connect(start->unit, "notify::selected", G_CALLBACK(on_unit), start);
    g_signal_connect(start->create, "clicked", G_CALLBACK(on_create), start);
    g_signal_connect(start->recent, "row-activated", G_CALLBACK(on_recent), start);
}
