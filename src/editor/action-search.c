#include "editor/action-search.h"

#include "editor/access.h"
#include "editor/intl.h"

/* What the menus say is what can be searched: a command has one name everywhere. */
typedef struct Command {
    char *name, *action, *keys;
    GVariant *target;
} Command;

typedef struct Open {
    GtkWindow *window;
    PinWindow *plate;
    GtkSearchEntry *entry;
    GtkListBox *list;
    GtkLabel *nothing;
    guint shown;
} Open;

/* Keys of the layout itself, which no menu and no application knows. */
static const struct {
    const char *action, *target, *keys;
} own_keys[] = {
    {"win.undo", NULL, "<Control>z"},
    {"win.redo", NULL, "<Control><Shift>z"},
    {"win.cut", NULL, "<Control>x"},
    {"win.copy", NULL, "<Control>c"},
    {"win.paste", NULL, "<Control>v"},
    {"win.duplicate", NULL, "<Control>d"},
    {"win.delete", NULL, "Delete"},
    {"win.select-all", NULL, "<Control>a"},
    {"win.turn-over", NULL, "t"},
    {"win.turn", NULL, "<Shift>t"},
    {"win.move-by", NULL, "<Control>m"},
    {"win.lock", NULL, "l"},
    {"win.repeat", NULL, "r"},
    {"win.repeat-round", NULL, "<Shift>r"},
    {"win.align", "left", "<Control>Left"},
    {"win.align", "right", "<Control>Right"},
    {"win.align", "front", "<Control>Down"},
    {"win.align", "back", "<Control>Up"},
    {"win.align", "centre-x", "c"},
    {"win.align", "centre-y", "<Shift>c"},
    {"win.space", "x", "s"},
    {"win.space", "y", "<Shift>s"},
    {"win.measure", "edges", "m"},
    {"win.measure", "centres", "<Shift>m"},
    {"win.guide", "upright", "g"},
    {"win.guide", "level", "<Shift>g"},
};

static void command_free(gpointer data)
{
    Command *command = data;
    g_free(command->name);
    g_free(command->action);
    g_free(command->keys);
    g_clear_pointer(&command->target, g_variant_unref);
    g_free(command);
}

/* --- gathering -----------------------------------------------------------------------------------
 */

static char *keys_of(PinWindow *window, const char *action, GVariant *target)
{
    const char *text = target && g_variant_is_of_type(target, G_VARIANT_TYPE_STRING)
                           ? g_variant_get_string(target, NULL)
                           : NULL;
    for (gsize i = 0; i < G_N_ELEMENTS(own_keys); i++)
        if (g_str_equal(own_keys[i].action, action) && g_strcmp0(own_keys[i].target, text) == 0)
            return g_strdup(own_keys[i].keys);
    char **all = gtk_application_get_accels_for_action(
        gtk_window_get_application(GTK_WINDOW(window)), action);
    char *first = g_strdup(all[0]);
    g_strfreev(all);
    return first;
}

static void add_command(PinWindow *window, GPtrArray *commands, const char *within,
                        const char *label, const char *action, GVariant *target)
{
    Command *command = g_new0(Command, 1);
    command->name = within ? g_strdup_printf("%s: %s", within, label) : g_strdup(label);
    command->action = g_strdup(action);
    command->target = target;
    command->keys = keys_of(window, action, target);
    g_ptr_array_add(commands, command);
}

static void gather(PinWindow *window, GMenuModel *model, const char *within, GPtrArray *commands)
{
    for (int i = 0; i < g_menu_model_get_n_items(model); i++) {
        char *label = NULL, *action = NULL;
        g_menu_model_get_item_attribute(model, i, G_MENU_ATTRIBUTE_LABEL, "s", &label);
        g_menu_model_get_item_attribute(model, i, G_MENU_ATTRIBUTE_ACTION, "s", &action);
        GVariant *target =
            g_menu_model_get_item_attribute_value(model, i, G_MENU_ATTRIBUTE_TARGET, NULL);
        GMenuModel *section = g_menu_model_get_item_link(model, i, G_MENU_LINK_SECTION);
        GMenuModel *submenu = g_menu_model_get_item_link(model, i, G_MENU_LINK_SUBMENU);
        if (section)
            gather(window, section, within, commands);
        if (submenu)
            gather(window, submenu, label, commands);
        if (label && action)
            add_command(window, commands, within, label, action, g_steal_pointer(&target));
        g_clear_pointer(&target, g_variant_unref);
        g_clear_object(&section);
        g_clear_object(&submenu);
        g_free(label);
        g_free(action);
    }
}

/* --- the list ------------------------------------------------------------------------------------
 */

static gboolean is_enabled(PinWindow *window, const Command *command)
{
    if (g_str_has_prefix(command->action, "win."))
        return g_action_group_get_action_enabled(G_ACTION_GROUP(window), command->action + 4);
    return TRUE;
}

/* Every word that is typed stands somewhere in the name. */
static gboolean matches(const char *name, const char *typed)
{
    char *folded = g_utf8_casefold(name, -1), *wanted = g_utf8_casefold(typed, -1);
    char **words = g_strsplit(wanted, " ", -1);
    gboolean all = TRUE;
    for (int i = 0; words[i] && all; i++)
        all = strstr(folded, words[i]) != NULL;
    g_strfreev(words);
    g_free(wanted);
    g_free(folded);
    return all;
}

static gboolean is_shown(GtkListBoxRow *row, gpointer data)
{
    Open *open = data;
    const Command *command = g_object_get_data(G_OBJECT(row), "command");
    gboolean shown = matches(command->name, gtk_editable_get_text(GTK_EDITABLE(open->entry)));
    open->shown += shown;
    return shown;
}

static GtkWidget *add_row(Open *open, Command *command)
{
    GtkWidget *row = gtk_list_box_row_new(), *box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 12);
    GtkWidget *name = gtk_label_new(command->name);
    gtk_label_set_xalign(GTK_LABEL(name), 0);
    gtk_label_set_wrap(GTK_LABEL(name), TRUE);
    gtk_label_set_wrap_mode(GTK_LABEL(name), PANGO_WRAP_WORD_CHAR);
    gtk_widget_set_hexpand(name, TRUE);
    gtk_box_append(GTK_BOX(box), name);
    if (command->keys)
        gtk_box_append(GTK_BOX(box), gtk_shortcut_label_new(command->keys));
    gtk_list_box_row_set_child(GTK_LIST_BOX_ROW(row), box);
    gtk_widget_set_sensitive(row, is_enabled(open->plate, command));
    access_name(row, command->name);
    access_row(row);
    g_object_set_data_full(G_OBJECT(row), "command", command, command_free);
    gtk_list_box_append(open->list, row);
    return row;
}

static GtkListBoxRow *first_usable(Open *open)
{
    GtkListBoxRow *row;
    for (int i = 0; (row = gtk_list_box_get_row_at_index(open->list, i)); i++)
        if (gtk_widget_get_child_visible(GTK_WIDGET(row)) &&
            gtk_widget_get_sensitive(GTK_WIDGET(row)))
            return row;
    return NULL;
}

/* --- the hand ------------------------------------------------------------------------------------
 */

typedef struct Chosen {
    PinWindow *plate;
    char *action;
    GVariant *target;
} Chosen;

/* Once this window is gone: what is done may open one of its own. */
static void carry_out(gpointer data)
{
    Chosen *chosen = data;
    gtk_widget_activate_action_variant(GTK_WIDGET(chosen->plate), chosen->action, chosen->target);
    g_clear_pointer(&chosen->target, g_variant_unref);
    g_object_unref(chosen->plate);
    g_free(chosen->action);
    g_free(chosen);
}

static void on_chosen(GtkListBox *list, GtkListBoxRow *row, Open *open)
{
    const Command *command = g_object_get_data(G_OBJECT(row), "command");
    Chosen *chosen = g_new0(Chosen, 1);
    chosen->plate = g_object_ref(open->plate);
    chosen->action = g_strdup(command->action);
    chosen->target = command->target ? g_variant_ref(command->target) : NULL;
    gtk_window_destroy(open->window);
    g_idle_add_once(carry_out, chosen);
}

static void on_changed(GtkSearchEntry *entry, Open *open)
{
    open->shown = 0;
    gtk_list_box_invalidate_filter(open->list);
    gtk_widget_set_visible(GTK_WIDGET(open->nothing), open->shown == 0);
    gtk_list_box_select_row(open->list, first_usable(open));
}

static void on_enter(GtkSearchEntry *entry, Open *open)
{
    /* The entry tells of its text a little late: never what fitted the text before. */
    on_changed(entry, open);
    GtkListBoxRow *row = gtk_list_box_get_selected_row(open->list);
    if (row)
        on_chosen(open->list, row, open);
}

static void on_end(GtkSearchEntry *entry, Open *open)
{
    gtk_window_destroy(open->window);
}

/* Down from the entry leads into the list. */
static gboolean on_key(GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
                       Open *open)
{
    if (key == GDK_KEY_Escape) {
        gtk_window_destroy(open->window);
        return TRUE;
    }
    if (key != GDK_KEY_Down ||
        !gtk_widget_has_focus(gtk_widget_get_first_child(GTK_WIDGET(open->entry))))
        return FALSE;
    GtkListBoxRow *row = first_usable(open);
    return row && gtk_widget_grab_focus(GTK_WIDGET(row));
}

/* --- the window ----------------------------------------------------------------------------------
 */

static void fill_list(Open *open)
{
    GPtrArray *commands = g_ptr_array_new();
    gather(open->plate, G_MENU_MODEL(open->plate->edit_menu), NULL, commands);
    gather(open->plate, gtk_menu_button_get_menu_model(open->plate->menu_button), NULL, commands);
    for (guint i = 0; i < commands->len; i++)
        add_row(open, commands->pdata[i]);
    g_ptr_array_unref(commands);
}

static void fill_window(Open *open)
{
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_VERTICAL, 8);
    GtkWidget *scrolled = gtk_scrolled_window_new();
    open->entry = GTK_SEARCH_ENTRY(gtk_search_entry_new());
    open->list = GTK_LIST_BOX(gtk_list_box_new());
    open->nothing = GTK_LABEL(gtk_label_new(_("Nothing is called that.")));
    gtk_widget_add_css_class(box, "form");
    gtk_widget_set_visible(GTK_WIDGET(open->nothing), FALSE);
    gtk_widget_set_vexpand(scrolled, TRUE);
    gtk_scrolled_window_set_child(GTK_SCROLLED_WINDOW(scrolled), GTK_WIDGET(open->list));
    gtk_accessible_update_property(GTK_ACCESSIBLE(open->entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("Find a command"), -1);
    access_name(GTK_WIDGET(open->list), _("Commands"));
    access_name(scrolled, _("Commands"));
    gtk_box_append(GTK_BOX(box), GTK_WIDGET(open->entry));
    gtk_box_append(GTK_BOX(box), GTK_WIDGET(open->nothing));
    gtk_box_append(GTK_BOX(box), scrolled);
    gtk_window_set_child(open->window, box);
}

static void show(PinWindow *window)
{
    Open *open = g_new0(Open, 1);
    open->plate = window;
    open->window = GTK_WINDOW(gtk_window_new());
    gtk_window_set_transient_for(open->window, GTK_WINDOW(window));
    gtk_window_set_modal(open->window, TRUE);
    gtk_window_set_default_size(open->window, 640, 480);
    gtk_window_set_title(open->window, _("Find a command"));
    g_object_set_data_full(G_OBJECT(open->window), "open", open, g_free);
    fill_window(open);
    fill_list(open);
    gtk_list_box_set_filter_func(open->list, is_shown, open, NULL);
    GtkEventController *keys = gtk_event_controller_key_new();
    gtk_event_controller_set_propagation_phase(keys, GTK_PHASE_CAPTURE);
    g_signal_connect(keys, "key-pressed", G_CALLBACK(on_key), open);
    gtk_widget_add_controller(GTK_WIDGET(open->window), keys);
    g_signal_connect(open->list, "row-activated", G_CALLBACK(on_chosen), open);
    g_signal_connect(open->entry, "search-changed", G_CALLBACK(on_changed), open);
    g_signal_connect(open->entry, "activate", G_CALLBACK(on_enter), open);
    g_signal_connect(open->entry, "stop-search", G_CALLBACK(on_end), open);
    gtk_list_box_select_row(open->list, first_usable(open));
    gtk_window_present(open->window);
    gtk_widget_grab_focus(GTK_WIDGET(open->entry));
}

static void on_find(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    if (window->document)
        pin_document_drag_cancel(window->document);
    show(window);
}

void action_search_add_action(PinWindow *window)
{
    static const GActionEntry entries[] = {{.name = "find-command", .activate = on_find}};
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
}
