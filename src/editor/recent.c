#include "editor/recent.h"

#define RECENT_MOST 8

static gint latest_first(gconstpointer a, gconstpointer b)
{
    GtkRecentInfo *first = (gpointer)a, *second = (gpointer)b;
    return g_date_time_compare(gtk_recent_info_get_modified(second),
                               gtk_recent_info_get_modified(first));
}

GPtrArray *recent_paths(void)
{
    GPtrArray *paths = g_ptr_array_new_with_free_func(g_free);
    GList *items = gtk_recent_manager_get_items(gtk_recent_manager_get_default());
    items = g_list_sort(items, latest_first);
    for (GList *i = items; i && paths->len < RECENT_MOST; i = i->next) {
        char *path = g_filename_from_uri(gtk_recent_info_get_uri(i->data), NULL, NULL);
        if (path && g_str_has_suffix(path, ".plate") && g_file_test(path, G_FILE_TEST_IS_REGULAR))
            g_ptr_array_add(paths, path);
        else
            g_free(path);
    }
    g_list_free_full(items, (GDestroyNotify)gtk_recent_info_unref);
    return paths;
}

void recent_add(const char *path)
{
    char *uri = g_filename_to_uri(path, NULL, NULL);
    if (uri)
        gtk_recent_manager_add_item(gtk_recent_manager_get_default(), uri);
    g_free(uri);
}

void recent_fill_menu(GMenu *menu)
{
    GPtrArray *paths = recent_paths();
    g_menu_remove_all(menu);
    for (guint i = 0; i < paths->len; i++) {
        char *name = g_path_get_basename(paths->pdata[i]);
        char **halves = g_strsplit(name, "_", -1); /* no mnemonics in file names */
        char *label = g_strjoinv("__", halves);
        GMenuItem *item = g_menu_item_new(label, NULL);
        g_menu_item_set_action_and_target(item, "app.open-recent", "s", paths->pdata[i]);
        g_menu_append_item(menu, item);
        g_object_unref(item);
        g_strfreev(halves);
        g_free(label);
        g_free(name);
    }
    g_ptr_array_unref(paths);
}
