/* Parts put into the plate: from their own files, or from an outline that is read. */
#include "editor/window-private.h"

#include "editor/choose-file.h"
#include "editor/import-outline.h"
#include "editor/intl.h"

static void say_added(PinWindow *window, const char *name)
{
    char *text = g_strdup_printf(_("%s is in the tray now. Drag it onto the plate."), name);
    gtk_stack_set_visible_child_name(window->left, "trays");
    window_say(window, text);
    g_free(text);
}

static void on_read(PinImportOutline *import, const char *name, PinWindow *window)
{
    say_added(window, name);
}

static void read_outline(const char *path, gpointer data)
{
    PinWindow *window = data;
    Error error;
    GtkWidget *import = pin_import_outline_new(GTK_WINDOW(window), window->document, path, &error);
    if (!import) {
        window_say_error(window, _("The outline can't be read"), &error);
        return;
    }
    g_signal_connect_object(import, "read", G_CALLBACK(on_read), window, 0);
    gtk_window_present(GTK_WINDOW(import));
}

static void add_part(const char *path, gpointer data)
{
    PinWindow *window = data;
    Error error;
    if (!g_str_has_suffix(path, ".platepart")) {
        read_outline(path, data);
        return;
    }
    Record *record = part_read(path, &error);
    if (!record) {
        window_say_error(window, _("The part can't be read"), &error);
        return;
    }
    Edit edit = EDIT_EMPTY;
    new_part(pin_document_session(window->document), &record->part, &edit);
    if (pin_document_do(window->document, &edit))
        say_added(window, record->part.name ? record->part.name : _("The part"));
    record_unref(record);
}

static void on_add_part(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    choose_file_to_open(GTK_WINDOW(data), FILE_PART, add_part, data);
}

static void on_import_outline(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    choose_file_to_open(GTK_WINDOW(data), FILE_OUTLINE, read_outline, data);
}

void window_add_part_actions(PinWindow *window)
{
    static const GActionEntry entries[] = {
        {.name = "add-part", .activate = on_add_part},
        {.name = "import-outline", .activate = on_import_outline},
    };
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
}
