/* The parts of the rack in the trays: those of a folder, as far as the plate does not have them. */
#include "editor/trays-private.h"

#include "editor/choose-file.h"
#include "editor/intl.h"
#include "editor/preferences.h"
#include "editor/tray-row.h"
#include "editor/tray-station.h"

/* The folder of the settings, or else the one that the plate's file is in. NULL: none. */
static char *wanted_folder(PinTrays *trays)
{
    const char *path = session_path(pin_document_session(trays->document));
    char *folder =
        trays->chosen_folder ? g_strdup(trays->chosen_folder) : preference_text("rack-folder");
    if (folder && *folder)
        return folder;
    g_free(folder);
    return path ? g_path_get_dirname(path) : NULL;
}

static void say_rack(PinTrays *trays)
{
    GString *text = g_string_new(NULL);
    guint read = 0;
    for (guint i = 0; trays->rack_found && i < trays->rack_found->len; i++) {
        const RackPart *part = trays->rack_found->pdata[i];
        read += part->record != NULL;
        if (part->trouble) {
            char *said = g_strdup_printf(_("%s is passed over: %s."), part->file, part->trouble);
            g_string_append_printf(text, "%s%s", text->len ? "\n" : "", said);
            g_free(said);
        }
    }
    if (!trays->rack_folder)
        g_string_assign(text, _("Choose the folder that parts are kept in."));
    else if (trays->rack_found && read == 0 && text->len == 0)
        g_string_assign(text, _("There are no parts in this folder."));
    gtk_label_set_label(trays->rack_note, text->str);
    gtk_widget_set_visible(GTK_WIDGET(trays->rack_note), text->len > 0);
    gtk_widget_set_tooltip_text(GTK_WIDGET(trays->rack_button), trays->rack_folder);
    g_string_free(text, TRUE);
}

/* One row at a time, while nothing else is to be done: each has a picture to be drawn. */
static gboolean add_rack_row(gpointer data)
{
    PinTrays *trays = data;
    if (trays->rack_next >= trays->rack_found->len) {
        trays->rack_filling = 0;
        return G_SOURCE_REMOVE;
    }
    const RackPart *part = trays->rack_found->pdata[trays->rack_next++];
    if (!part->record)
        return G_SOURCE_CONTINUE;
    const char *name = part->record->part.name;
    GtkWidget *row = tray_row_add(
        trays->rack,
        tray_station_item_new(name && *name ? name : part->file, part->record, trays->with_nest),
        trays->lettering, trays->unit);
    char *tip = g_strdup_printf("%s\n%s", part->file, gtk_widget_get_tooltip_text(row));
    gtk_widget_set_tooltip_text(row, tip);
    g_free(tip);
    g_object_set_data_full(G_OBJECT(row), "record", record_ref(part->record),
                           (GDestroyNotify)record_unref);
    gtk_list_box_row_changed(GTK_LIST_BOX_ROW(row));
    trays_show_sections(trays);
    return G_SOURCE_CONTINUE;
}

static void clear_rack(PinTrays *trays)
{
    g_clear_handle_id(&trays->rack_filling, g_source_remove);
    g_clear_pointer(&trays->rack_found, g_ptr_array_unref);
    tray_rows_clear(trays->rack);
    trays_show_sections(trays);
}

static void on_rack_read(GPtrArray *parts, gpointer data)
{
    PinTrays *trays = data;
    clear_rack(trays);
    trays->rack_found = parts;
    trays->rack_next = 0;
    trays->rack_filling = g_idle_add_full(G_PRIORITY_LOW, add_rack_row, trays, NULL);
    say_rack(trays);
}

void trays_leave_rack(PinTrays *trays)
{
    g_clear_pointer(&trays->watched, rack_parts_end);
    g_clear_pointer(&trays->rack_folder, g_free);
    clear_rack(trays);
}

void trays_watch_rack(PinTrays *trays)
{
    char *folder = wanted_folder(trays);
    if (g_strcmp0(folder, trays->rack_folder) != 0) {
        trays_leave_rack(trays);
        trays->rack_folder = g_strdup(folder);
        if (folder)
            trays->watched = rack_parts_watch(folder, on_rack_read, trays);
    }
    g_free(folder);
    say_rack(trays);
}

static void on_folder_chosen(const char *path, gpointer data)
{
    PinTrays *trays = data;
    preference_set_text("rack-folder", path);
    g_free(trays->chosen_folder);
    trays->chosen_folder = g_strdup(path);
    if (trays->document)
        trays_watch_rack(trays);
}

void trays_choose_rack(GtkButton *button, PinTrays *trays)
{
    choose_folder(GTK_WINDOW(gtk_widget_get_root(GTK_WIDGET(trays))),
                  _("The folder that parts are kept in"), on_folder_chosen, trays);
}
