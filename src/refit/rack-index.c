#include "refit/rack-index.h"

#include "plate/plate-file.h"
#include "refit/plate-holes.h"

#include <stdlib.h>
#include <string.h>

/* A pitch is kept as a float: half of its last place at 10 m. */
#define PITCH_ROUNDING 0.0005

RackIndex *rack_index_new(void)
{
    RackIndex *index = g_new0(RackIndex, 1);
    index->entries = g_ptr_array_new_with_free_func((GDestroyNotify)rack_entry_free);
    index->uses = g_array_new(FALSE, FALSE, sizeof(HoleUse));
    index->groups = g_array_new(FALSE, FALSE, sizeof(PitchGroup));
    return index;
}

void rack_entry_free(RackEntry *entry)
{
    g_free(entry->file);
    g_free(entry->error);
    g_free(entry);
}

void rack_index_free(RackIndex *index)
{
    if (!index)
        return;
    g_ptr_array_unref(index->entries);
    g_array_unref(index->uses);
    g_array_unref(index->groups);
    if (index->store)
        index->store_free(index->store);
    g_free(index);
}

uint32_t rack_index_use(RackIndex *index, const HoleUse *use)
{
    for (guint i = 0; i < index->uses->len; i++)
        if (hole_use_equal(&g_array_index(index->uses, HoleUse, i), use))
            return i;
    g_array_append_val(index->uses, *use);
    return index->uses->len - 1;
}

/* --- reading plates ------------------------------------------------------------------------- */

/* A pitch that was just read, before it is sorted in. */
typedef struct FreshPitch {
    uint32_t one, other;
    Pitch pitch;
} FreshPitch;

static void add_pitches(GArray *fresh, const MatchHole *holes, const uint32_t *uses, uint32_t count,
                        uint32_t plate)
{
    for (uint32_t i = 0; i < count; i++) {
        for (uint32_t k = i + 1; k < count; k++) {
            uint32_t one = uses[holes[i].use], other = uses[holes[k].use];
            FreshPitch pitch = {MIN(one, other),
                                MAX(one, other),
                                {(float)point_distance(holes[i].at, holes[k].at), plate}};
            g_array_append_val(fresh, pitch);
        }
    }
}

static void read_plate_holes(RackIndex *index, const Plate *plate, RackEntry *entry,
                             uint32_t number, GArray *fresh, uint64_t old_count)
{
    Placed *placed = placed_new(plate);
    PlateHoles holes;
    plate_holes_init(&holes, placed);
    uint32_t *uses = g_new(uint32_t, holes.uses->len + 1);
    for (guint i = 0; i < holes.uses->len; i++)
        uses[i] = rack_index_use(index, &g_array_index(holes.uses, HoleUse, i));
    for (guint f = 0; f < holes.faces->len; f++) {
        const FaceHoles *face = &g_array_index(holes.faces, FaceHoles, f);
        const MatchHole *all = (const MatchHole *)(void *)holes.holes->data;
        uint64_t more = (uint64_t)face->count * face->count / 2;
        if (face->count > RACK_HOLES_MOST || old_count + fresh->len + more > RACK_PITCHES_MOST)
            entry->crowded = true;
        else if (face->count)
            add_pitches(fresh, all + face->first, uses, face->count, number);
    }
    g_free(uses);
    plate_holes_clear(&holes);
    placed_free(placed);
}

static void read_entry(RackIndex *index, const char *folder, RackEntry *entry, uint32_t number,
                       GArray *fresh, uint64_t old_count)
{
    Error error = {.kind = ERROR_NONE};
    char *path = g_build_filename(folder, entry->file, NULL);
    Plate *plate = plate_read(path, &entry->stamp, &error);
    if (plate) {
        read_plate_holes(index, plate, entry, number, fresh, old_count);
        plate_free(plate);
    } else {
        char line[1024];
        *error.file = 0;
        error_line(&error, line, sizeof line);
        entry->error = g_strdup(line);
        entry->stamp = file_stamp(path);
    }
    g_free(path);
}

/* --- old and new pitches together ----------------------------------------------------------- */

static int compare_fresh(const void *a, const void *b)
{
    const FreshPitch *one = a, *other = b;
    if (one->one != other->one)
        return one->one < other->one ? -1 : 1;
    if (one->other != other->other)
        return one->other < other->other ? -1 : 1;
    return (one->pitch.mm > other->pitch.mm) - (one->pitch.mm < other->pitch.mm);
}

static void append(GArray *pitches, GArray *groups, uint32_t one, uint32_t other, Pitch pitch)
{
    PitchGroup *last = groups->len ? &g_array_index(groups, PitchGroup, groups->len - 1) : NULL;
    if (!last || last->one != one || last->other != other) {
        PitchGroup group = {one, other, pitches->len, 0};
        g_array_append_val(groups, group);
        last = &g_array_index(groups, PitchGroup, groups->len - 1);
    }
    last->count++;
    g_array_append_val(pitches, pitch);
}

static void free_array(void *array)
{
    g_array_unref(array);
}

/* Merges what of the old index still holds (`numbers` says which entry each old one is now, or
 * UINT32_MAX) with what was read; both are sorted. */
static void merge(RackIndex *index, const RackIndex *old, const uint32_t *numbers, GArray *fresh)
{
    GArray *pitches =
        g_array_sized_new(FALSE, FALSE, sizeof(Pitch), (guint)(old->pitch_count + fresh->len));
    guint next = 0;
    g_array_sort(fresh, compare_fresh);
    for (guint g = 0; g < old->groups->len; g++) {
        const PitchGroup *group = &g_array_index(old->groups, PitchGroup, g);
        for (uint64_t i = group->first; i < group->first + group->count; i++) {
            FreshPitch kept = {group->one, group->other, old->pitches[i]};
            if (kept.pitch.plate >= old->entries->len || numbers[kept.pitch.plate] == UINT32_MAX)
                continue;
            kept.pitch.plate = numbers[kept.pitch.plate];
            for (; next < fresh->len; next++) {
                const FreshPitch *first = &g_array_index(fresh, FreshPitch, next);
                if (compare_fresh(first, &kept) > 0)
                    break;
                append(pitches, index->groups, first->one, first->other, first->pitch);
            }
            append(pitches, index->groups, kept.one, kept.other, kept.pitch);
        }
    }
    for (; next < fresh->len; next++) {
        const FreshPitch *first = &g_array_index(fresh, FreshPitch, next);
        append(pitches, index->groups, first->one, first->other, first->pitch);
    }
    index->pitches = (const Pitch *)(void *)pitches->data;
    index->pitch_count = pitches->len;
    index->store = pitches;
    index->store_free = free_array;
}

/* --- bringing it up to date ----------------------------------------------------------------- */

static gint compare_names(gconstpointer a, gconstpointer b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

/* The names of the folder's plates, sorted. NULL with an error. */
static GPtrArray *plates_in(const char *folder, Error *error)
{
    GError *problem = NULL;
    GDir *dir = g_dir_open(folder, 0, &problem);
    if (!dir) {
        error_set(error, ERROR_FILE, NULL, "the folder can't be opened");
        error_set_file(error, folder);
        g_error_free(problem);
        return NULL;
    }
    GPtrArray *names = g_ptr_array_new_with_free_func(g_free);
    for (const char *name; (name = g_dir_read_name(dir));)
        if (g_str_has_suffix(name, ".plate"))
            g_ptr_array_add(names, g_strdup(name));
    g_dir_close(dir);
    g_ptr_array_sort(names, compare_names);
    return names;
}

/* Old entries come in the order of their names, as the new ones do. */
static const RackEntry *old_entry(const RackIndex *old, const char *name, guint *from)
{
    while (*from < old->entries->len) {
        const RackEntry *entry = old->entries->pdata[*from];
        int order = strcmp(entry->file, name);
        if (order >= 0)
            return order == 0 ? entry : NULL;
        ++*from;
    }
    return NULL;
}

typedef struct Update {
    RackIndex *index;
    const RackIndex *old;
    const char *folder;
    uint32_t *numbers; /* of the old entries */
    GArray *fresh;
    uint32_t reread;
} Update;

static void take_file(Update *update, const char *name, guint *from)
{
    char *path = g_build_filename(update->folder, name, NULL);
    FileStamp stamp = file_stamp(path);
    const RackEntry *known = old_entry(update->old, name, from);
    RackEntry *entry = g_new0(RackEntry, 1);
    uint32_t number = update->index->entries->len;
    entry->file = g_strdup(name);
    g_ptr_array_add(update->index->entries, entry);
    if (known && file_stamp_equal(known->stamp, stamp)) {
        entry->stamp = stamp;
        entry->error = g_strdup(known->error);
        entry->crowded = known->crowded;
        update->numbers[*from] = number;
    } else {
        read_entry(update->index, update->folder, entry, number, update->fresh,
                   update->old->pitch_count);
        update->reread++;
    }
    g_free(path);
}

static bool take_files(Update *update, const GPtrArray *names, RackGoOn go_on, void *data)
{
    guint from = 0;
    for (guint i = 0; i < names->len; i++) {
        const char *name = names->pdata[i];
        if (go_on && !go_on((double)i / names->len, name, data))
            return false;
        take_file(update, name, &from);
    }
    return true;
}

static RackIndex *updated(RackIndex *old, const char *folder, const GPtrArray *names,
                          const char *path, RackGoOn go_on, void *data, uint32_t *reread)
{
    Update update = {rack_index_new(),
                     old,
                     folder,
                     g_new(uint32_t, old->entries->len + 1),
                     g_array_new(FALSE, FALSE, sizeof(FreshPitch)),
                     0};
    memset(update.numbers, 0xff, sizeof(uint32_t) * old->entries->len);
    g_array_append_vals(update.index->uses, old->uses->data, old->uses->len);
    bool done = take_files(&update, names, go_on, data);
    bool same = done && update.reread == 0 && old->entries->len == names->len;
    if (done && !same) {
        merge(update.index, old, update.numbers, update.fresh);
        rack_index_save(update.index, path);
    }
    if (reread)
        *reread = update.reread;
    g_free(update.numbers);
    g_array_unref(update.fresh);
    if (same || !done) {
        rack_index_free(update.index);
        update.index = NULL;
    }
    if (same)
        return old;
    rack_index_free(old);
    return update.index;
}

RackIndex *rack_index_list(const char *folder, Error *error)
{
    GPtrArray *names = plates_in(folder, error);
    RackIndex *index = names ? rack_index_new() : NULL;
    for (guint i = 0; names && i < names->len; i++) {
        RackEntry *entry = g_new0(RackEntry, 1);
        entry->file = g_strdup(names->pdata[i]);
        g_ptr_array_add(index->entries, entry);
    }
    if (names)
        g_ptr_array_unref(names);
    return index;
}

RackIndex *rack_index_open(const char *folder, const char *cache_folder, RackGoOn go_on, void *data,
                           uint32_t *reread, Error *error)
{
    GPtrArray *names = plates_in(folder, error);
    if (!names)
        return NULL;
    char *path = rack_index_path(folder, cache_folder);
    RackIndex *index = updated(rack_index_load(path), folder, names, path, go_on, data, reread);
    g_free(path);
    g_ptr_array_unref(names);
    return index;
}

/* --- looking up ----------------------------------------------------------------------------- */

/* The most that two pitches may differ where one hole at least locates; negative: never. */
static double pitch_play(const HoleOptions *a, const HoleOptions *b)
{
    double play = -1;
    if (a->locate.serves && b->locate.serves)
        play = a->locate.play + b->locate.play;
    if (a->locate.serves && b->hold.serves)
        play = fmax(play, a->locate.play + b->hold.play);
    if (a->hold.serves && b->locate.serves)
        play = fmax(play, a->hold.play + b->locate.play);
    return play;
}

static void mark_range(const RackIndex *index, const PitchGroup *group, double from, double to,
                       bool *marks)
{
    uint64_t low = group->first, end = low + group->count, high = end;
    while (low < high) {
        uint64_t middle = low + (high - low) / 2;
        if ((double)index->pitches[middle].mm < from)
            low = middle + 1;
        else
            high = middle;
    }
    for (; low < end && (double)index->pitches[low].mm <= to; low++)
        if (index->pitches[low].plate < index->entries->len)
            marks[index->pitches[low].plate] = true;
}

static void mark_pair(const RackIndex *index, const MatchQuery *query, int i, int k, bool *marks)
{
    double pitch = point_distance(query->part[i], query->part[k]);
    if (pitch < 0.001)
        return;
    for (guint g = 0; g < index->groups->len; g++) {
        const PitchGroup *group = &g_array_index(index->groups, PitchGroup, g);
        double play = fmax(
            pitch_play(match_options(query, group->one, i), match_options(query, group->other, k)),
            pitch_play(match_options(query, group->one, k), match_options(query, group->other, i)));
        if (play >= 0)
            mark_range(index, group, pitch - play - PITCH_ROUNDING, pitch + play + PITCH_ROUNDING,
                       marks);
    }
}

void rack_index_mark(const RackIndex *index, const Part *part, double clearance, bool *marks)
{
    MatchQuery query;
    match_query_init(&query, part, (const HoleUse *)(void *)index->uses->data, index->uses->len,
                     clearance);
    for (guint i = 0; i < index->entries->len; i++)
        marks[i] = ((const RackEntry *)index->entries->pdata[i])->crowded;
    for (int i = 0; i < query.part_count; i++)
        for (int k = i + 1; k < query.part_count; k++)
            mark_pair(index, &query, i, k, marks);
    match_query_clear(&query);
}
