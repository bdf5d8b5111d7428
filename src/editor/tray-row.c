#include "editor/tray-row.h"

#include "editor/access.h"
#include "editor/intl.h"
#include "editor/picture.h"

#define PICTURE_WIDTH 44
#define PICTURE_HEIGHT 26
#define PICTURE_SCALE 0.8

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

static void add_drag_source(GtkWidget *row, PinTrayItem *item, GtkWidget *picture)
{
    GtkDragSource *source = gtk_drag_source_new();
    gtk_drag_source_set_actions(source, GDK_ACTION_COPY);
    g_signal_connect(source, "prepare", G_CALLBACK(on_prepare), item);
    g_signal_connect(source, "drag-begin", G_CALLBACK(on_drag_begin), picture);
    gtk_widget_add_controller(row, GTK_EVENT_CONTROLLER(source));
}

GtkWidget *tray_row_add(GtkListBox *list, PinTrayItem *item, Lettering *lettering, Unit unit)
{
    GtkWidget *row = gtk_list_box_row_new();
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
    GtkWidget *picture =
        picture_new(item, lettering, unit, PICTURE_WIDTH, PICTURE_HEIGHT, PICTURE_SCALE);
    GtkWidget *label = gtk_label_new(pin_tray_item_name(item));
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_wrap_mode(GTK_LABEL(label), PANGO_WRAP_WORD_CHAR);
    gtk_widget_set_hexpand(label, TRUE);
    gtk_box_append(GTK_BOX(box), picture);
    gtk_box_append(GTK_BOX(box), label);
    gtk_list_box_row_set_child(GTK_LIST_BOX_ROW(row), box);
    gtk_widget_set_tooltip_text(
        row, pin_tray_item_needs_station(item)
                 ? _("Drag this onto a station, or choose a station and press Enter")
                 : _("Drag this onto the plate, or press Enter to put it in the middle of the "
                     "view"));
    access_name(row, pin_tray_item_name(item));
    access_row(row);
    g_object_set_data_full(G_OBJECT(row), "item", item, g_object_unref);
    g_object_set_data(G_OBJECT(row), "picture", picture);
    add_drag_source(row, item, picture);
    gtk_list_box_append(list, row);
    return row;
}

PinTrayItem *tray_row_item(GtkListBoxRow *row)
{
    return g_object_get_data(G_OBJECT(row), "item");
}

void tray_rows_update(GtkListBox *list)
{
    GtkListBoxRow *row;
    for (int i = 0; (row = gtk_list_box_get_row_at_index(list, i)); i++)
        picture_update(g_object_get_data(G_OBJECT(row), "picture"));
}

void tray_rows_clear(GtkListBox *list)
{
    GtkListBoxRow *row;
    while ((row = gtk_list_box_get_row_at_index(list, 0)))
        gtk_list_box_remove(list, GTK_WIDGET(row));
}
