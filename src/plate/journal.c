#include "plate/journal.h"

#include "plate/json-strict.h"
#include "plate/plate-file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define JOURNAL_FORMAT "pinplate-journal"
#define SUFFIX ".journal"

struct Journal {
    int file;
    char *name;
};

char *journal_folder(void)
{
    return g_build_filename(g_get_user_state_dir(), "pinplate", "journals", NULL);
}

static char *name_for(const char *folder, const char *path)
{
    char *unique =
        path ? g_strdup(path)
             : g_strdup_printf("unsaved %d %" G_GINT64_FORMAT, (int)getpid(), g_get_real_time());
    char *hash = g_compute_checksum_for_string(G_CHECKSUM_SHA256, unique, -1);
    hash[32] = 0;
    char *base = g_strconcat(hash, SUFFIX, NULL);
    char *name = g_build_filename(folder, base, NULL);
    g_free(base);
    g_free(hash);
    g_free(unique);
    return name;
}

/* Closes the line's object and puts it on the disk. */
static bool write_line(int file, JsonText *text)
{
    size_t size;
    json_text_close(text, '}');
    json_text_raw(text, "\n", 1);
    char *bytes = json_text_take(text, &size);
    bool whole = write_all(file, bytes, size) && fdatasync(file) == 0;
    g_free(bytes);
    return whole;
}

static void write_string(JsonText *text, const char *key, const char *string)
{
    json_text_key(text, key);
    json_text_string(text, string);
}

static bool write_head(int file, const char *path, const Plate *plate, bool unsaved)
{
    size_t size;
    char *whole = plate_text(plate, &size);
    JsonText text = JSON_TEXT_ONE_LINE;
    json_text_open(&text, '{');
    write_string(&text, "format", JOURNAL_FORMAT);
    json_text_key(&text, "version");
    json_text_whole(&text, FILE_VERSION);
    if (path)
        write_string(&text, "path", path);
    if (unsaved) {
        json_text_key(&text, "unsaved");
        json_text_raw(&text, "true", 4);
    }
    json_text_key(&text, "plate");
    json_text_string(&text, whole);
    g_free(whole);
    return write_line(file, &text);
}

static void write_change(JsonText *text, const RecordChange *change)
{
    json_text_next(text);
    json_text_open(text, '{');
    json_text_key(text, "id");
    json_text_whole(text, change->id);
    json_text_key(text, "after");
    if (change->after)
        record_write(change->after, true, text);
    else
        json_text_raw(text, "null", 4);
    json_text_close(text, '}');
}

static bool write_edit(int file, const Edit *edit)
{
    JsonText text = JSON_TEXT_ONE_LINE;
    json_text_open(&text, '{');
    if (edit->name)
        write_string(&text, "name", edit->name);
    json_text_key(&text, "edit");
    json_text_open(&text, '[');
    for (uint32_t i = 0; i < edit->count; i++)
        write_change(&text, &edit->changes[i]);
    json_text_close(&text, ']');
    return write_line(file, &text);
}

/* The lock is of the file that has the name now: another program may have put a new one there. */
static bool lock_by_name(int file, const char *name)
{
    struct stat locked, named;
    return flock(file, LOCK_EX | LOCK_NB) == 0 && fstat(file, &locked) == 0 &&
           stat(name, &named) == 0 && locked.st_dev == named.st_dev &&
           locked.st_ino == named.st_ino;
}

/* The new journal beside the old, which it replaces when it is whole: what the old one could bring
 * back is never on no disk at all. Returns the new one's file, locked; -1 when it can't be. */
static int replace_journal(const char *name, const char *path, const Plate *plate, bool unsaved)
{
    char *fresh = g_strconcat(name, ".new", NULL);
    int file = open(fresh, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    bool good = file >= 0 && flock(file, LOCK_EX | LOCK_NB) == 0;
    good = good && write_head(file, path, plate, unsaved) && rename(fresh, name) == 0;
    if (good) {
        sync_folder_of(name);
    } else {
        int why = errno;
        if (file >= 0)
            close(file);
        unlink(fresh);
        errno = why;
    }
    g_free(fresh);
    return good ? file : -1;
}

Journal *journal_begin(const char *folder, const char *path, const Plate *plate, bool unsaved,
                       Error *error)
{
    Journal *journal = g_new0(Journal, 1);
    journal->name = name_for(folder, path);
    g_mkdir_with_parents(folder, 0700);
    int old = open(journal->name, O_WRONLY | O_CREAT | O_CLOEXEC, 0600);
    bool held = old >= 0 && lock_by_name(old, journal->name);
    journal->file = held ? replace_journal(journal->name, path, plate, unsaved) : -1;
    int why = errno;
    if (old >= 0)
        close(old);
    if (journal->file >= 0)
        return journal;
    if (old >= 0 && !held)
        error_set(error, ERROR_CONFLICT, NULL,
                  "this plate is open in another window too; only that one keeps its recovery "
                  "journal");
    else
        error_set(error, ERROR_FILE, NULL, "the recovery journal can't be written: %s; save often",
                  g_strerror(why));
    error_set_file(error, held || old < 0 || !path ? journal->name : path);
    journal_leave(journal);
    return NULL;
}

bool journal_add(Journal *journal, const Edit *edit, Error *error)
{
    if (write_edit(journal->file, edit))
        return true;
    error_set(error, ERROR_FILE, NULL, "the recovery journal can't be written: %s; save soon",
              g_strerror(errno));
    error_set_file(error, journal->name);
    return false;
}

void journal_leave(Journal *journal)
{
    if (!journal)
        return;
    if (journal->file >= 0)
        close(journal->file);
    g_free(journal->name);
    g_free(journal);
}

void journal_end(Journal *journal)
{
    if (journal)
        unlink(journal->name);
    journal_leave(journal);
}

void journal_found_clear(JournalFound *found)
{
    g_free(found->file);
    g_free(found->path);
}

/* One line of the file as JSON; NULL at the end or at a line that is cut off or spoilt. */
static json_object *next_line(const char **at, const char *end)
{
    const char *stop = memchr(*at, '\n', (size_t)(end - *at));
    if (!stop)
        return NULL;
    json_object *json = json_strict_parse(*at, (size_t)(stop - *at), NULL);
    *at = stop + 1;
    return json;
}

static bool is_held(const char *name)
{
    int file = open(name, O_RDONLY | O_CLOEXEC);
    bool held = file >= 0 && flock(file, LOCK_EX | LOCK_NB) != 0;
    if (file >= 0)
        close(file);
    return held;
}

static bool look_at(const char *name, JournalFound *found)
{
    size_t size;
    char *bytes = read_bytes(name, JOURNAL_BYTES_MOST, &size, NULL, NULL);
    const char *at = bytes, *end = bytes ? bytes + size : NULL;
    json_object *head = bytes ? next_line(&at, end) : NULL;
    json_object *path, *unsaved;
    bool good = json_object_is_type(head, json_type_object);
    *found = (JournalFound){NULL, NULL, 0, false};
    if (good) {
        found->file = g_strdup(name);
        if (json_object_object_get_ex(head, "path", &path))
            found->path = g_strdup(json_object_get_string(path));
        if (json_object_object_get_ex(head, "unsaved", &unsaved))
            found->unsaved = json_object_get_boolean(unsaved);
        for (json_object *line; (line = next_line(&at, end)); json_object_put(line))
            found->edits++;
    }
    json_object_put(head);
    g_free(bytes);
    return good;
}

GArray *journal_find(const char *folder)
{
    GArray *all = g_array_new(FALSE, FALSE, sizeof(JournalFound));
    GDir *dir = g_dir_open(folder, 0, NULL);
    g_array_set_clear_func(all, (GDestroyNotify)(void (*)(void))journal_found_clear);
    for (const char *base; dir && (base = g_dir_read_name(dir));) {
        char *name = g_build_filename(folder, base, NULL);
        JournalFound found;
        if (g_str_has_suffix(base, SUFFIX) && !is_held(name) && look_at(name, &found)) {
            if (found.edits > 0 || found.unsaved)
                g_array_append_val(all, found);
            else
                journal_found_clear(&found);
        }
        g_free(name);
    }
    if (dir)
        g_dir_close(dir);
    return all;
}

static bool add_change(Plate *plate, json_object *json, Edit *edit, Error *error)
{
    json_object *id, *after;
    if (!json_object_is_type(json, json_type_object) ||
        !json_object_object_get_ex(json, "id", &id) || !json_object_is_type(id, json_type_int))
        return error_set(error, ERROR_FORMAT, NULL, "a change without a number");
    Record *record = NULL;
    if (json_object_object_get_ex(json, "after", &after) && after &&
        !(record = record_read(after, -1, error)))
        return false;
    FeatureId number = record ? record->id : (FeatureId)json_object_get_int64(id);
    const Record *before = plate_find(plate, number);
    if (!record && !before)
        return error_set(error, ERROR_FORMAT, NULL, "a change of nothing");
    edit_add(edit, record_ref(before), record);
    return true;
}

static bool redo_line(Plate *plate, json_object *line, Error *error)
{
    json_object *changes;
    Edit edit = EDIT_EMPTY;
    bool good = json_object_is_type(line, json_type_object) &&
                json_object_object_get_ex(line, "edit", &changes) &&
                json_object_is_type(changes, json_type_array);
    for (size_t i = 0; good && i < json_object_array_length(changes); i++)
        good = add_change(plate, json_object_array_get_idx(changes, i), &edit, error);
    good = good && plate_apply(plate, &edit, NULL, NULL, error);
    edit_clear(&edit);
    return good;
}

Plate *journal_recover(const char *file, Error *error)
{
    size_t size;
    char *bytes = read_bytes(file, JOURNAL_BYTES_MOST, &size, NULL, error);
    if (!bytes)
        return NULL;
    const char *at = bytes, *end = bytes + size;
    json_object *head = next_line(&at, end), *text = NULL;
    Plate *plate = NULL;
    if (json_object_is_type(head, json_type_object) &&
        json_object_object_get_ex(head, "plate", &text) &&
        json_object_is_type(text, json_type_string))
        plate = plate_parse(json_object_get_string(text), (size_t)json_object_get_string_len(text),
                            error);
    else
        error_set(error, ERROR_FORMAT, NULL, "this is no recovery journal");
    bool on = true;
    for (json_object *line; plate && on && (line = next_line(&at, end)); json_object_put(line))
        on = redo_line(plate, line, NULL);
    json_object_put(head);
    g_free(bytes);
    error_set_file(error, file);
    return plate;
}

void journal_discard(const char *file)
{
    unlink(file);
}
