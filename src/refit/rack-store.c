/* The rack's index as a file of the user's cache. Whatever is odd about it makes it an empty one:
 * it can always be made again. */
#include "refit/rack-index.h"

#include <string.h>

#if G_BYTE_ORDER == G_LITTLE_ENDIAN
#define RACK_VERSION "pinplate rack 2 little"
#else
#define RACK_VERSION "pinplate rack 2 big"
#endif

/* Uses, entries, texts, groups, pitches. Entries and pitches are of one size each, so that they are
 * taken as they lie; an entry's texts are where it says in the texts, one after the other. A pitch
 * is two whole words, the first of them a float's bits. */
#define USE_TYPE "(sxixxx)"
#define ENTRY_TYPE "(ttxxuu)"
#define GROUP_TYPE "(uutt)"
#define RACK_TYPE "(sa" USE_TYPE "a" ENTRY_TYPE "aya" GROUP_TYPE "a(uu))"

#define NO_TEXT UINT32_MAX

typedef struct StoredEntry {
    uint64_t device, inode;
    int64_t size, modified_ns;
    uint32_t file, error; /* where in the texts; no error: NO_TEXT */
} StoredEntry;

/* A crowded entry's file name begins with this, which no plate's does. */
#define CROWDED "/"

char *rack_index_path(const char *folder, const char *cache_folder)
{
    char *full = g_canonicalize_filename(folder, NULL);
    char *sum = g_compute_checksum_for_string(G_CHECKSUM_SHA256, full, -1);
    char *name = g_strconcat("rack-", sum, NULL);
    char *path = cache_folder ? g_build_filename(cache_folder, name, NULL)
                              : g_build_filename(g_get_user_cache_dir(), "pinplate", name, NULL);
    g_free(name);
    g_free(sum);
    g_free(full);
    return path;
}

/* --- reading -------------------------------------------------------------------------------- */

static bool is_length(Length length)
{
    return length >= -LENGTH_GREATEST && length <= LENGTH_GREATEST;
}

static bool read_uses(RackIndex *index, GVariant *list)
{
    for (gsize i = 0; i < g_variant_n_children(list); i++) {
        const char *thread;
        HoleUse use = {.thread = NULL};
        gint32 kind;
        GVariant *item = g_variant_get_child_value(list, i);
        g_variant_get(item, "(&sxixxx)", &thread, &use.reamed, &kind, &use.pin, &use.pin_upper,
                      &use.pin_lower);
        use.pin_kind = kind;
        use.thread = *thread ? thread_find(thread, NULL) : NULL;
        bool known = (!*thread || use.thread) && is_length(use.reamed) && is_length(use.pin) &&
                     is_length(use.pin_upper) && is_length(use.pin_lower);
        g_variant_unref(item);
        if (!known)
            return false;
        g_array_append_val(index->uses, use);
    }
    return true;
}

static const char *text_at(const char *texts, gsize size, uint32_t at)
{
    return at < size && memchr(texts + at, 0, size - at) ? texts + at : NULL;
}

static bool read_entries(RackIndex *index, GVariant *list, GVariant *blob)
{
    gsize count, size;
    const StoredEntry *stored = g_variant_get_fixed_array(list, &count, sizeof(StoredEntry));
    const char *texts = g_variant_get_fixed_array(blob, &size, 1);
    for (gsize i = 0; i < count; i++) {
        const char *file = text_at(texts, size, stored[i].file);
        const char *error = text_at(texts, size, stored[i].error);
        if (!file || (!error && stored[i].error != NO_TEXT))
            return false;
        RackEntry *entry = g_new0(RackEntry, 1);
        entry->stamp = (FileStamp){true, stored[i].device, stored[i].inode, stored[i].size,
                                   stored[i].modified_ns};
        entry->crowded = g_str_has_prefix(file, CROWDED);
        entry->file = g_strdup(entry->crowded ? file + strlen(CROWDED) : file);
        entry->error = g_strdup(error);
        g_ptr_array_add(index->entries, entry);
    }
    return true;
}

static bool read_groups(RackIndex *index, GVariant *list)
{
    uint64_t next = 0;
    for (gsize i = 0; i < g_variant_n_children(list); i++) {
        PitchGroup group;
        g_variant_get_child(list, i, GROUP_TYPE, &group.one, &group.other, &group.first,
                            &group.count);
        if (group.first != next || group.count > index->pitch_count - next ||
            group.one > group.other || group.other >= index->uses->len)
            return false;
        next += group.count;
        g_array_append_val(index->groups, group);
    }
    return next == index->pitch_count;
}

static void unref_variant(void *variant)
{
    g_variant_unref(variant);
}

static bool read_root(RackIndex *index, GVariant *root)
{
    GVariant *version = g_variant_get_child_value(root, 0);
    GVariant *uses = g_variant_get_child_value(root, 1);
    GVariant *entries = g_variant_get_child_value(root, 2);
    GVariant *texts = g_variant_get_child_value(root, 3);
    GVariant *groups = g_variant_get_child_value(root, 4);
    GVariant *pitches = g_variant_get_child_value(root, 5);
    gsize count;
    bool fine = strcmp(g_variant_get_string(version, NULL), RACK_VERSION) == 0;
    index->pitches = g_variant_get_fixed_array(pitches, &count, sizeof(Pitch));
    index->pitch_count = count;
    index->store = g_variant_ref(pitches);
    index->store_free = unref_variant;
    fine = fine && read_entries(index, entries, texts) && read_uses(index, uses) &&
           read_groups(index, groups);
    g_variant_unref(version);
    g_variant_unref(uses);
    g_variant_unref(entries);
    g_variant_unref(texts);
    g_variant_unref(groups);
    g_variant_unref(pitches);
    return fine;
}

RackIndex *rack_index_load(const char *path)
{
    RackIndex *index = rack_index_new();
    GMappedFile *file = g_mapped_file_new(path, FALSE, NULL);
    if (!file)
        return index;
    GBytes *bytes = g_mapped_file_get_bytes(file);
    GVariant *root = g_variant_new_from_bytes(G_VARIANT_TYPE(RACK_TYPE), bytes, FALSE);
    g_variant_ref_sink(root);
    if (!read_root(index, root)) {
        rack_index_free(index);
        index = rack_index_new();
    }
    g_variant_unref(root);
    g_bytes_unref(bytes);
    g_mapped_file_unref(file);
    return index;
}

/* --- writing -------------------------------------------------------------------------------- */

static GVariant *uses_variant(const RackIndex *index)
{
    GVariantBuilder builder;
    g_variant_builder_init(&builder, G_VARIANT_TYPE("a" USE_TYPE));
    for (guint i = 0; i < index->uses->len; i++) {
        const HoleUse *use = &g_array_index(index->uses, HoleUse, i);
        g_variant_builder_add(&builder, USE_TYPE, use->thread ? use->thread->name : "", use->reamed,
                              use->pin_kind, use->pin, use->pin_upper, use->pin_lower);
    }
    return g_variant_builder_end(&builder);
}

static uint32_t add_text(GString *texts, const char *before, const char *text)
{
    uint32_t at = (uint32_t)texts->len;
    g_string_append(texts, before);
    g_string_append_len(texts, text, (gssize)strlen(text) + 1);
    return at;
}

/* Fills `texts` too. */
static GVariant *entries_variant(const RackIndex *index, GString *texts)
{
    GArray *stored = g_array_new(FALSE, FALSE, sizeof(StoredEntry));
    for (guint i = 0; i < index->entries->len; i++) {
        const RackEntry *entry = index->entries->pdata[i];
        StoredEntry item = {entry->stamp.device,
                            entry->stamp.inode,
                            entry->stamp.size,
                            entry->stamp.modified_ns,
                            NO_TEXT,
                            NO_TEXT};
        item.file = add_text(texts, entry->crowded ? CROWDED : "", entry->file);
        if (entry->error)
            item.error = add_text(texts, "", entry->error);
        g_array_append_val(stored, item);
    }
    GVariant *list = g_variant_new_fixed_array(G_VARIANT_TYPE(ENTRY_TYPE), stored->data,
                                               stored->len, sizeof(StoredEntry));
    g_array_unref(stored);
    return list;
}

static GVariant *groups_variant(const RackIndex *index)
{
    GVariantBuilder builder;
    g_variant_builder_init(&builder, G_VARIANT_TYPE("a" GROUP_TYPE));
    for (guint i = 0; i < index->groups->len; i++) {
        const PitchGroup *group = &g_array_index(index->groups, PitchGroup, i);
        g_variant_builder_add(&builder, GROUP_TYPE, group->one, group->other, group->first,
                              group->count);
    }
    return g_variant_builder_end(&builder);
}

void rack_index_save(const RackIndex *index, const char *path)
{
    GString *texts = g_string_new(NULL);
    GVariant *entries = entries_variant(index, texts);
    GVariant *children[] = {
        g_variant_new_string(RACK_VERSION),
        uses_variant(index),
        entries,
        g_variant_new_fixed_array(G_VARIANT_TYPE_BYTE, texts->str, texts->len, 1),
        groups_variant(index),
        g_variant_new_fixed_array(G_VARIANT_TYPE("(uu)"), index->pitches, index->pitch_count,
                                  sizeof(Pitch))};
    g_string_free(texts, TRUE);
    GVariant *root = g_variant_new_tuple(children, G_N_ELEMENTS(children));
    char *folder = g_path_get_dirname(path);
    g_variant_ref_sink(root);
    if (g_mkdir_with_parents(folder, 0700) == 0)
        g_file_set_contents_full(path, g_variant_get_data(root), (gssize)g_variant_get_size(root),
                                 G_FILE_SET_CONTENTS_CONSISTENT, 0600, NULL);
    g_free(folder);
    g_variant_unref(root);
}
