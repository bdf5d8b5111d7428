/* The rack's index as a file of the user's cache. Whatever is odd about it makes it an empty one:
 * it can always be made again. */
#include "refit/rack-index.h"

#include <string.h>

#if G_BYTE_ORDER == G_LITTLE_ENDIAN
#define RACK_VERSION "pinplate rack 1 little"
#else
#define RACK_VERSION "pinplate rack 1 big"
#endif

/* Uses, entries, groups, pitches. A pitch is two whole words, the first of them a float's bits. */
#define USE_TYPE "(sxixxx)"
#define ENTRY_TYPE "(sttxxsb)"
#define GROUP_TYPE "(uutt)"
#define RACK_TYPE "(sa" USE_TYPE "a" ENTRY_TYPE "a" GROUP_TYPE "a(uu))"

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
        bool known = !*thread || use.thread;
        g_variant_unref(item);
        if (!known)
            return false;
        g_array_append_val(index->uses, use);
    }
    return true;
}

static void read_entries(RackIndex *index, GVariant *list)
{
    for (gsize i = 0; i < g_variant_n_children(list); i++) {
        const char *file, *error;
        gboolean crowded;
        RackEntry *entry = g_new0(RackEntry, 1);
        GVariant *item = g_variant_get_child_value(list, i);
        g_variant_get(item, "(&sttxx&sb)", &file, &entry->stamp.device, &entry->stamp.inode,
                      &entry->stamp.size, &entry->stamp.modified_ns, &error, &crowded);
        entry->stamp.exists = true;
        entry->file = g_strdup(file);
        entry->error = *error ? g_strdup(error) : NULL;
        entry->crowded = crowded;
        g_ptr_array_add(index->entries, entry);
        g_variant_unref(item);
    }
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
    GVariant *groups = g_variant_get_child_value(root, 3);
    GVariant *pitches = g_variant_get_child_value(root, 4);
    gsize count;
    bool fine = strcmp(g_variant_get_string(version, NULL), RACK_VERSION) == 0;
    index->pitches = g_variant_get_fixed_array(pitches, &count, sizeof(Pitch));
    index->pitch_count = count;
    index->store = g_variant_ref(pitches);
    index->store_free = unref_variant;
    if (fine)
        read_entries(index, entries);
    fine = fine && read_uses(index, uses) && read_groups(index, groups);
    g_variant_unref(version);
    g_variant_unref(uses);
    g_variant_unref(entries);
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

static GVariant *entries_variant(const RackIndex *index)
{
    GVariantBuilder builder;
    g_variant_builder_init(&builder, G_VARIANT_TYPE("a" ENTRY_TYPE));
    for (guint i = 0; i < index->entries->len; i++) {
        const RackEntry *entry = index->entries->pdata[i];
        g_variant_builder_add(&builder, ENTRY_TYPE, entry->file, entry->stamp.device,
                              entry->stamp.inode, entry->stamp.size, entry->stamp.modified_ns,
                              entry->error ? entry->error : "", (gboolean)entry->crowded);
    }
    return g_variant_builder_end(&builder);
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
    GVariant *children[] = {g_variant_new_string(RACK_VERSION), uses_variant(index),
                            entries_variant(index), groups_variant(index),
                            g_variant_new_fixed_array(G_VARIANT_TYPE("(uu)"), index->pitches,
                                                      index->pitch_count, sizeof(Pitch))};
    GVariant *root = g_variant_new_tuple(children, G_N_ELEMENTS(children));
    char *folder = g_path_get_dirname(path);
    g_variant_ref_sink(root);
    if (g_mkdir_with_parents(folder, 0700) == 0)
        g_file_set_contents_full(path, g_variant_get_data(root), (gssize)g_variant_get_size(root),
                                 G_FILE_SET_CONTENTS_CONSISTENT, 0600, NULL);
    g_free(folder);
    g_variant_unref(root);
}
