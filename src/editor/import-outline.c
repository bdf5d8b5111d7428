#include "editor/import-outline.h"

#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/picture.h"
#include "editor/speech.h"
#include "exchange/outline-csv.h"
#include "exchange/outline-svg.h"

#include <string.h>

struct _PinImportOutline {
    GtkWindow parent_instance;
    GtkBox *picture_place, *rows;
    GtkLabel *notes;
    GtkButton *add, *cancel;
    PinFieldRow *name, *length, *width, *thickness, *material;
    PinDocument *document;
    Lettering *lettering;
    char *path;
    OutlineOptions options;
    Record *part; /* as it was last read; not shared */
};

G_DEFINE_FINAL_TYPE(PinImportOutline, pin_import_outline, GTK_TYPE_WINDOW)

static bool load(PinImportOutline *import, OutlineRead *read, Error *error)
{
    char *lower = g_ascii_strdown(import->path, -1);
    bool table = g_str_has_suffix(lower, ".csv") || g_str_has_suffix(lower, ".txt");
    g_free(lower);
    return table ? outline_csv_load(import->path, &import->options, read, error)
                 : outline_svg_load(import->path, &import->options, read, error);
}

static bool make_part(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                      Error *error)
{
    const Record *record = data;
    FeatureId part = new_part(session, &record->part, edit);
    return new_station(session, face, at, part, edit) != ID_NONE;
}

static void show_picture(PinImportOutline *import)
{
    GtkWidget *old = gtk_widget_get_first_child(GTK_WIDGET(import->picture_place));
    if (old)
        gtk_box_remove(import->picture_place, old);
    PinTrayItem *item = pin_tray_item_new("", make_part, import->part, NULL);
    GtkWidget *picture =
        picture_new(item, import->lettering, pin_document_unit(import->document), 340, 240, 8);
    gtk_box_append(import->picture_place, picture);
    g_object_unref(item);
}

static void show_notes(PinImportOutline *import, const OutlineRead *read)
{
    GString *text = g_string_new(NULL);
    g_string_append_printf(text, ngettext("%u round hole.", "%u round holes.", read->holes->len),
                           read->holes->len);
    for (guint i = 0; i < read->notes->len; i++) {
        char *note = g_strdup(read->notes->pdata[i]);
        note[0] = g_ascii_toupper(note[0]);
        g_string_append_printf(text, "\n%s.", note);
        g_free(note);
    }
    gtk_label_set_label(import->notes, text->str);
    g_string_free(text, TRUE);
}

static void show_size(PinImportOutline *import, const OutlineRead *read)
{
    char text[LENGTH_PEOPLE_TEXT];
    Unit unit = pin_document_unit(import->document);
    pin_length_text(read->width, unit, text);
    pin_field_row_set(import->length, text, TRUE);
    pin_length_text(read->height, unit, text);
    pin_field_row_set(import->width, text, TRUE);
}

/* Reads the file by the options of now. */
static bool reread(PinImportOutline *import, Error *error)
{
    OutlineRead read;
    if (!load(import, &read, error))
        return false;
    if (import->part)
        record_unref(import->part);
    import->part = record_new(ID_NONE, RECORD_PART);
    outline_read_part(&read, &import->part->part);
    import->part->part.name = g_strdup(pin_field_row_text(import->name));
    show_size(import, &read);
    show_notes(import, &read);
    show_picture(import);
    outline_read_clear(&read);
    return true;
}

/* The size that is known corrects the drawing's scale. */
static void on_size_typed(PinFieldRow *row, const char *text, PinImportOutline *import)
{
    Length length;
    Error error;
    OutlineOptions before = import->options;
    if (!pin_field_row_length(row, pin_document_unit(import->document), &length))
        return;
    import->options.known_width = row == import->length ? length_to_mm(length) : 0;
    import->options.known_height = row == import->width ? length_to_mm(length) : 0;
    if (reread(import, &error))
        return;
    import->options = before;
    pin_field_row_refuse(row, &error);
}

static void on_thickness_typed(PinFieldRow *row, const char *text, PinImportOutline *import)
{
    Length length;
    pin_field_row_length(row, pin_document_unit(import->document), &length);
}

static void on_add(GtkButton *button, PinImportOutline *import)
{
    Length thickness;
    Part *part = &import->part->part;
    if (!pin_field_row_length(import->thickness, pin_document_unit(import->document), &thickness))
        return;
    part->thickness = thickness;
    g_free(part->name);
    part->name = g_strdup(pin_field_row_text(import->name));
    g_free(part->material);
    part->material = *pin_field_row_text(import->material)
                         ? g_strdup(pin_field_row_text(import->material))
                         : NULL;
    Edit edit = EDIT_EMPTY;
    new_part(pin_document_session(import->document), part, &edit);
    if (!pin_document_do(import->document, &edit))
        return;
    char *name = g_strdup(part->name);
    g_signal_emit_by_name(import, "read", name);
    g_free(name);
    gtk_window_destroy(GTK_WINDOW(import));
}

static void add_rows(PinImportOutline *import)
{
    import->name = PIN_FIELD_ROW(pin_field_row_new(_("Name")));
    pin_field_row_set_wide(import->name);
    import->length = PIN_FIELD_ROW(pin_field_row_new(_("Length, along X")));
    import->width = PIN_FIELD_ROW(pin_field_row_new(_("Width, along Y")));
    import->thickness = PIN_FIELD_ROW(pin_field_row_new(_("Thickness")));
    import->material = PIN_FIELD_ROW(pin_field_row_new(_("Material")));
    pin_field_row_set_wide(import->material);
    g_signal_connect(import->length, "typed", G_CALLBACK(on_size_typed), import);
    g_signal_connect(import->width, "typed", G_CALLBACK(on_size_typed), import);
    g_signal_connect(import->thickness, "typed", G_CALLBACK(on_thickness_typed), import);
    GtkWidget *hint = gtk_label_new(_("This is the size as read. Where it is wrong, type the one "
                                      "that you know: the whole outline follows."));
    gtk_label_set_wrap(GTK_LABEL(hint), TRUE);
    gtk_label_set_xalign(GTK_LABEL(hint), 0);
    gtk_label_set_max_width_chars(GTK_LABEL(hint), 30);
    gtk_widget_add_css_class(hint, "caption");
    GtkWidget *rows[] = {GTK_WIDGET(import->name),      GTK_WIDGET(import->length),
                         GTK_WIDGET(import->width),     hint,
                         GTK_WIDGET(import->thickness), GTK_WIDGET(import->material)};
    for (gsize i = 0; i < G_N_ELEMENTS(rows); i++)
        gtk_box_append(import->rows, rows[i]);
}

GtkWidget *pin_import_outline_new(GtkWindow *parent, PinDocument *document, const char *path,
                                  Error *error)
{
    PinImportOutline *import = g_object_new(PIN_TYPE_IMPORT_OUTLINE, "transient-for", parent, NULL);
    import->document = g_object_ref(document);
    import->path = g_strdup(path);
    char *name = g_path_get_basename(path);
    char *dot = strrchr(name, '.');
    if (dot && dot != name)
        *dot = '\0';
    pin_field_row_set(import->name, name, TRUE);
    pin_field_row_set(import->thickness, pin_document_unit(document) == UNIT_INCH ? "0.125" : "3",
                      TRUE);
    g_free(name);
    if (reread(import, error))
        return GTK_WIDGET(import);
    gtk_window_destroy(GTK_WINDOW(import));
    return NULL;
}

static void pin_import_outline_finalize(GObject *object)
{
    PinImportOutline *import = PIN_IMPORT_OUTLINE(object);
    g_clear_object(&import->document);
    if (import->part)
        record_unref(import->part);
    lettering_unref(import->lettering);
    g_free(import->path);
    G_OBJECT_CLASS(pin_import_outline_parent_class)->finalize(object);
}

static void pin_import_outline_class_init(PinImportOutlineClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = pin_import_outline_finalize;
    g_signal_new("read", PIN_TYPE_IMPORT_OUTLINE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                 G_TYPE_NONE, 1, G_TYPE_STRING);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/import-outline.ui");
    gtk_widget_class_bind_template_child(widget, PinImportOutline, picture_place);
    gtk_widget_class_bind_template_child(widget, PinImportOutline, rows);
    gtk_widget_class_bind_template_child(widget, PinImportOutline, notes);
    gtk_widget_class_bind_template_child(widget, PinImportOutline, add);
    gtk_widget_class_bind_template_child(widget, PinImportOutline, cancel);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void pin_import_outline_init(PinImportOutline *import)
{
    gtk_widget_init_template(GTK_WIDGET(import));
    import->lettering = lettering_new(NULL);
    add_rows(import);
    g_signal_connect(import->add, "clicked", G_CALLBACK(on_add), import);
    g_signal_connect_swapped(import->cancel, "clicked", G_CALLBACK(gtk_window_close), import);
}
