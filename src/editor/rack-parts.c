#include "editor/rack-parts.h"

#include "plate/plate-file.h"

#include <string.h>

#define ENDING ".platepart"
/* A file that is being written changes several times. */
#define SETTLED 400 /* ms */

struct RackParts {
    char *folder;
    RackPartsRead read;
    gpointer data;
    GFileMonitor *monitor;
    GCancellable *stop; /* of the reading under way */
    guint waiting;      /* for the folder to settle */
};

static void rack_part_free(gpointer data)
{
    RackPart *part = data;
    record_unref(part->record);
    g_free(part->file);
    g_free(part->trouble);
    g_free(part);
}

static int by_name(gconstpointer a, gconstpointer b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static GPtrArray *list_files(const char *folder)
{
    GPtrArray *files = g_ptr_array_new_with_free_func(g_free);
    GDir *directory = g_dir_open(folder, 0, NULL);
    const char *name;
    while (directory && (name = g_dir_read_name(directory)) && files->len < RACK_PARTS_MOST)
        if (g_str_has_suffix(name, ENDING) && name[0] != '.')
            g_ptr_array_add(files, g_strdup(name));
    if (directory)
        g_dir_close(directory);
    g_ptr_array_sort(files, by_name);
    return files;
}

static char *trouble_of(const Error *error)
{
    return error->place[0] ? g_strdup_printf("%s: %s", error->place, error->message)
                           : g_strdup(error->message);
}

static void read_all(GTask *task, gpointer source, gpointer folder, GCancellable *stop)
{
    GPtrArray *parts = g_ptr_array_new_with_free_func(rack_part_free);
    GPtrArray *files = list_files(folder);
    for (guint i = 0; i < files->len && !g_cancellable_is_cancelled(stop); i++) {
        Error error;
        char *path = g_build_filename(folder, files->pdata[i], NULL);
        RackPart *part = g_new0(RackPart, 1);
        part->file = g_strdup(files->pdata[i]);
        part->record = part_read(path, &error);
        if (!part->record)
            part->trouble = trouble_of(&error);
        g_ptr_array_add(parts, part);
        g_free(path);
    }
    g_ptr_array_unref(files);
    g_task_return_pointer(task, parts, (GDestroyNotify)g_ptr_array_unref);
}

/* A task that was stopped gives an error and no parts; then `data` may be gone. */
static void on_read(GObject *source, GAsyncResult *result, gpointer data)
{
    RackParts *parts = data;
    GPtrArray *found = g_task_propagate_pointer(G_TASK(result), NULL);
    if (!found)
        return;
    g_clear_object(&parts->stop);
    parts->read(found, parts->data);
}

static void stop_reading(RackParts *parts)
{
    if (parts->stop)
        g_cancellable_cancel(parts->stop);
    g_clear_object(&parts->stop);
}

static gboolean begin(gpointer data)
{
    RackParts *parts = data;
    stop_reading(parts);
    parts->waiting = 0;
    parts->stop = g_cancellable_new();
    GTask *task = g_task_new(NULL, parts->stop, on_read, parts);
    g_task_set_priority(task, G_PRIORITY_LOW);
    g_task_set_task_data(task, g_strdup(parts->folder), g_free);
    g_task_run_in_thread(task, read_all);
    g_object_unref(task);
    return G_SOURCE_REMOVE;
}

static void on_folder_changed(GFileMonitor *monitor, GFile *file, GFile *other,
                              GFileMonitorEvent event, RackParts *parts)
{
    g_clear_handle_id(&parts->waiting, g_source_remove);
    parts->waiting = g_timeout_add_full(G_PRIORITY_LOW, SETTLED, begin, parts, NULL);
}

RackParts *rack_parts_watch(const char *folder, RackPartsRead read, gpointer data)
{
    RackParts *parts = g_new0(RackParts, 1);
    GFile *file = g_file_new_for_path(folder);
    parts->folder = g_strdup(folder);
    parts->read = read;
    parts->data = data;
    parts->monitor = g_file_monitor_directory(file, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);
    if (parts->monitor)
        g_signal_connect(parts->monitor, "changed", G_CALLBACK(on_folder_changed), parts);
    parts->waiting = g_idle_add_full(G_PRIORITY_LOW, begin, parts, NULL);
    g_object_unref(file);
    return parts;
}

void rack_parts_end(RackParts *parts)
{
    if (!parts)
        return;
    stop_reading(parts);
    g_clear_handle_id(&parts->waiting, g_source_remove);
    if (parts->monitor)
        g_signal_handlers_disconnect_by_data(parts->monitor, parts);
    g_clear_object(&parts->monitor);
    g_free(parts->folder);
    g_free(parts);
}
