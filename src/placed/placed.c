#include "placed/placed-private.h"

#include "placed/placed-seat.h"
#include "placed/work-out.h"

static Placed *placed_new_empty(const Placed *under)
{
    Placed *placed = g_new0(Placed, 1);
    placed->under = under;
    placed->entries = g_array_new(FALSE, TRUE, sizeof(Entry));
    placed->slots = g_array_new(FALSE, TRUE, sizeof(uint32_t));
    placed->marks = g_array_new(FALSE, TRUE, sizeof(uint32_t));
    /* An overlay is dragged about over more and more of the plate, and may not allocate then. */
    placed->touched =
        g_array_sized_new(FALSE, FALSE, sizeof(FeatureId), under ? under->entries->len : 0);
    placed->left = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    placed->clamp_marks = g_array_new(FALSE, TRUE, sizeof(uint32_t));
    placed->clamps =
        g_array_sized_new(FALSE, FALSE, sizeof(FeatureId), under ? under->entries->len : 0);
    placed->frames = g_array_new(FALSE, FALSE, sizeof(Frame));
    placed->faces = g_array_new(FALSE, FALSE, sizeof(FaceIndex));
    placed->running = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    placed->dependents = under ? NULL : dependents_new();
    return placed;
}

/* --- entries --------------------------------------------------------------------------------- */

Entry *placed_entry(const Placed *placed, FeatureId id)
{
    if (id >= placed->slots->len)
        return NULL;
    uint32_t slot = g_array_index(placed->slots, uint32_t, id);
    return slot ? &g_array_index(placed->entries, Entry, slot - 1) : NULL;
}

static Index *index_of(const Placed *placed, FeatureId face)
{
    for (guint i = 0; i < placed->faces->len; i++)
        if (g_array_index(placed->faces, FaceIndex, i).face == face)
            return g_array_index(placed->faces, FaceIndex, i).index;
    return NULL;
}

static Index *index_for(Placed *placed, FeatureId face)
{
    Index *index = index_of(placed, face);
    if (index)
        return index;
    index = index_new();
    if (!index)
        g_error("no memory is left for an index");
    FaceIndex entry = {face, index};
    g_array_append_val(placed->faces, entry);
    return index;
}

static void leave_index(Placed *placed, Entry *entry)
{
    if (entry->indexed_face)
        index_remove(index_of(placed, entry->indexed_face), entry->id);
    entry->indexed_face = ID_NONE;
}

static void enter_index(Placed *placed, Entry *entry)
{
    if (!entry->has_feature || entry->indexed_face != entry->feature.face)
        leave_index(placed, entry);
    if (!entry->has_feature)
        return;
    if (!index_put(index_for(placed, entry->feature.face), entry->id,
                   feature_whole_box(&entry->feature)))
        g_error("no memory is left for an index");
    entry->indexed_face = entry->feature.face;
}

static Entry *entry_add(Placed *placed, FeatureId id)
{
    Entry *entry = placed_entry(placed, id);
    if (entry)
        return entry;
    if (id >= placed->slots->len)
        g_array_set_size(placed->slots, id + 1);
    g_array_set_size(placed->entries, placed->entries->len + 1);
    g_array_index(placed->slots, uint32_t, id) = placed->entries->len;
    entry = &g_array_index(placed->entries, Entry, placed->entries->len - 1);
    *entry = (Entry){.id = id};
    return entry;
}

static void free_ring(void *ring)
{
    outline_unref(ring);
}

/* Each ring of an outline as an area of its own. */
static GPtrArray *rings_of(const Outline *outline)
{
    GPtrArray *rings = g_ptr_array_new_with_free_func(free_ring);
    for (size_t i = 0; i < outline_ring_count(outline); i++) {
        size_t starts[2] = {0, 0};
        const Vertex *vertices = outline_ring(outline, i, &starts[1]);
        Outline *ring = outline_new(vertices, starts, 1, NULL);
        if (!ring)
            g_error("no memory is left for an outline");
        g_ptr_array_add(rings, ring);
    }
    return rings;
}

static void entry_set_record(Entry *entry, const Record *record)
{
    if (entry->record == record)
        return;
    const Record *old = entry->record;
    bool same_part = old && record && old->kind == RECORD_PART && record->kind == RECORD_PART &&
                     schema_equal(&part_schema, &old->part, &record->part);
    entry->record = record_ref(record);
    record_unref(old);
    if (same_part)
        return;
    outline_unref(entry->outline);
    g_clear_pointer(&entry->rings, g_ptr_array_unref);
    entry->outline =
        record && record->kind == RECORD_PART ? part_outline(&record->part, NULL) : NULL;
    if (entry->outline && outline_ring_count(entry->outline) > 1)
        entry->rings = rings_of(entry->outline);
}

static void entry_remove(Placed *placed, Entry *entry)
{
    leave_index(placed, entry);
    entry_set_record(entry, NULL);
    uint32_t slot = g_array_index(placed->slots, uint32_t, entry->id);
    g_array_index(placed->slots, uint32_t, entry->id) = 0;
    g_array_remove_index_fast(placed->entries, slot - 1);
    if (slot <= placed->entries->len) {
        FeatureId moved = g_array_index(placed->entries, Entry, slot - 1).id;
        g_array_index(placed->slots, uint32_t, moved) = slot;
    }
}

void placed_free(Placed *placed)
{
    if (!placed)
        return;
    for (guint i = 0; i < placed->entries->len; i++)
        entry_set_record(&g_array_index(placed->entries, Entry, i), NULL);
    for (guint i = 0; i < placed->faces->len; i++)
        index_free(g_array_index(placed->faces, FaceIndex, i).index);
    if (placed->dependents)
        dependents_free(placed->dependents);
    g_array_unref(placed->entries);
    g_array_unref(placed->slots);
    g_array_unref(placed->marks);
    g_array_unref(placed->touched);
    g_array_unref(placed->left);
    g_array_unref(placed->clamp_marks);
    g_array_unref(placed->clamps);
    g_array_unref(placed->frames);
    g_array_unref(placed->faces);
    g_array_unref(placed->running);
    g_free(placed);
}

/* --- looking --------------------------------------------------------------------------------- */

const Record *placed_record(const Placed *placed, FeatureId id)
{
    for (; placed; placed = placed->under) {
        const Entry *entry = placed_entry(placed, id);
        if (entry)
            return entry->record;
    }
    return NULL;
}

const Feature *placed_find(const Placed *placed, FeatureId id)
{
    for (; placed; placed = placed->under) {
        const Entry *entry = placed_entry(placed, id);
        if (entry)
            return entry->has_feature ? &entry->feature : NULL;
    }
    return NULL;
}

const Settings *placed_settings(const Placed *placed)
{
    return &placed_record(placed, ID_SETTINGS)->settings;
}

/* The lowest number of a base among one level's own records; a gone one hides the base below. */
static void find_base(Placed *placed)
{
    placed->base = placed->under ? placed->under->base : ID_NONE;
    for (guint i = 0; i < placed->entries->len; i++) {
        const Entry *entry = &g_array_index(placed->entries, Entry, i);
        bool is_base = entry->record && entry->record->kind == RECORD_BASE;
        if (is_base && (!placed->base || entry->id < placed->base))
            placed->base = entry->id;
        else if (!entry->record && entry->id == placed->base)
            placed->base = ID_NONE;
    }
}

FeatureId placed_base(const Placed *placed)
{
    return placed->base;
}

const Outline *placed_outline(const Placed *placed, FeatureId part)
{
    for (; placed; placed = placed->under) {
        const Entry *entry = placed_entry(placed, part);
        if (entry)
            return entry->outline;
    }
    return NULL;
}

const Outline *placed_ring(const Placed *placed, FeatureId part, size_t ring)
{
    while (placed && !placed_entry(placed, part))
        placed = placed->under;
    const Entry *entry = placed ? placed_entry(placed, part) : NULL;
    if (!entry || !entry->outline)
        return NULL;
    return entry->rings ? entry->rings->pdata[ring] : entry->outline;
}

const FeatureId *placed_running(const Placed *placed, uint32_t *count)
{
    while (placed->under && !placed->own_running)
        placed = placed->under;
    *count = placed->running->len;
    return (const FeatureId *)(void *)placed->running->data;
}

static const GArray *frames_of(const Placed *placed)
{
    while (placed->under && placed->frames->len == 0)
        placed = placed->under;
    return placed->frames;
}

uint32_t placed_frame_count(const Placed *placed)
{
    return frames_of(placed)->len;
}

const Frame *placed_frame_at(const Placed *placed, uint32_t i)
{
    return &g_array_index(frames_of(placed), Frame, i);
}

const Frame *placed_frame(const Placed *placed, FeatureId face)
{
    const GArray *frames = frames_of(placed);
    for (guint i = 0; i < frames->len; i++)
        if (g_array_index(frames, Frame, i).face == face)
            return &g_array_index(frames, Frame, i);
    return NULL;
}

static const Record *see_record(const void *data, FeatureId id)
{
    return placed_record(data, id);
}

static const Outline *see_outline(const void *data, FeatureId part)
{
    return placed_outline(data, part);
}

static const Frame *see_frame(const void *data, FeatureId face)
{
    return placed_frame(data, face);
}

static double see_seat(const void *data, FeatureId station)
{
    return placed_seat(data, station);
}

typedef struct Visit {
    const Placed *of; /* the level whose entries or index are walked */
    const Placed *top;
    FeatureVisit visit;
    void *data;
    bool on;
} Visit;

/* True when a level above `of` says something else of the number. */
static bool is_covered(const Visit *visit, FeatureId id)
{
    for (const Placed *level = visit->top; level != visit->of; level = level->under)
        if (placed_entry(level, id))
            return true;
    return false;
}

void placed_each(const Placed *placed, FeatureVisit visit, void *data)
{
    Visit walk = {placed, placed, visit, data, true};
    for (; walk.of; walk.of = walk.of->under) {
        for (guint i = 0; i < walk.of->entries->len; i++) {
            const Entry *entry = &g_array_index(walk.of->entries, Entry, i);
            if (entry->has_feature && !is_covered(&walk, entry->id) &&
                !visit(&entry->feature, data))
                return;
        }
    }
}

void placed_each_record(const Placed *placed, RecordKind kind, RecordVisit visit, void *data)
{
    Visit walk = {placed, placed, NULL, data, true};
    for (; walk.of; walk.of = walk.of->under) {
        for (guint i = 0; i < walk.of->entries->len; i++) {
            const Entry *entry = &g_array_index(walk.of->entries, Entry, i);
            if (entry->record && entry->record->kind == kind && !is_covered(&walk, entry->id) &&
                !visit(entry->record, data))
                return;
        }
    }
}

static bool visit_key(uint32_t key, void *data)
{
    Visit *walk = data;
    if (is_covered(walk, key))
        return true;
    const Entry *entry = placed_entry(walk->of, key);
    walk->on = walk->visit(&entry->feature, walk->data);
    return walk->on;
}

void placed_each_near(const Placed *placed, FeatureId face, Box box, FeatureVisit visit, void *data)
{
    Visit walk = {placed, placed, visit, data, true};
    for (; walk.of && walk.on; walk.of = walk.of->under) {
        const Index *index = index_of(walk.of, face);
        if (index)
            index_each_near(index, box, visit_key, &walk);
    }
}

static bool stands_on(const Record *record, FeatureId id)
{
    return record && (record_station(record) == id ||
                      (record->kind == RECORD_FITTING &&
                       (record->fitting.hole == id || record->fitting.slot == id)));
}

void placed_each_on(const Placed *placed, FeatureId id, FeatureVisit visit, void *data)
{
    const Feature *own = placed_find(placed, id);
    const Placed *bottom = placed;
    uint32_t count;
    if (own && !visit(own, data))
        return;
    while (bottom->under)
        bottom = bottom->under;
    const FeatureId *on = dependents_of(bottom->dependents, id, &count);
    for (uint32_t i = 0; i < count; i++) {
        const Feature *feature = placed_find(placed, on[i]);
        if (feature && stands_on(placed_record(placed, on[i]), id) && !visit(feature, data))
            return;
    }
    for (const Placed *level = placed; level != bottom; level = level->under) {
        Visit walk = {level, placed, visit, data, true};
        for (guint i = 0; i < level->entries->len; i++) {
            const Entry *entry = &g_array_index(level->entries, Entry, i);
            if (entry->has_feature && stands_on(entry->record, id) &&
                !is_covered(&walk, entry->id) && !stands_on(placed_record(bottom, entry->id), id) &&
                !visit(&entry->feature, data))
                return;
        }
    }
}

/* --- working out ------------------------------------------------------------------------------ */

static void work_out(Placed *placed, Entry *entry)
{
    const Sight sight = {see_record, see_outline, see_frame, see_seat, placed};
    entry->has_feature = entry->record && feature_work_out(&sight, entry->record, &entry->feature);
    enter_index(placed, entry);
}

static void add_frame(Placed *placed, const Record *record)
{
    if (record && record->kind == RECORD_FACE) {
        Frame frame = frame_of(&placed_settings(placed)->stock, record);
        g_array_append_val(placed->frames, frame);
    }
}

static void work_out_frames(Placed *placed, const Plate *plate)
{
    g_array_set_size(placed->frames, 0);
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (plate_at(plate, i)->kind == RECORD_FACE)
            add_frame(placed, placed_record(placed, plate_at(plate, i)->id));
    /* Faces that only an overlay's edit has. */
    for (guint i = 0; placed->under && i < placed->entries->len; i++) {
        const Entry *entry = &g_array_index(placed->entries, Entry, i);
        if (!plate_find(plate, entry->id))
            add_frame(placed, entry->record);
    }
}

/* Whatever stands on the plate is seen in another light after a change of such a record. */
static bool touches_everything(const Record *record)
{
    return record->kind == RECORD_SETTINGS || record->kind == RECORD_FACE ||
           record->kind == RECORD_OPERATION || record->kind == RECORD_BASE;
}

static bool add_running(const Record *record, void *data)
{
    GArray *running = data;
    if (record->operation.kind == OPERATION_RUNNING)
        g_array_append_val(running, record->id);
    return true;
}

/* By their order, and of those that say the same one by their numbers. */
static gint compare_running(const void *a, const void *b, void *data)
{
    FeatureId one = *(const FeatureId *)a, other = *(const FeatureId *)b;
    int32_t first = placed_record(data, one)->operation.order;
    int32_t second = placed_record(data, other)->operation.order;
    return first != second ? (first > second) - (first < second) : (one > other) - (one < other);
}

static void find_running(Placed *placed)
{
    placed->own_running = !placed->under;
    for (guint i = 0; i < placed->entries->len && !placed->own_running; i++) {
        const Entry *entry = &g_array_index(placed->entries, Entry, i);
        const Record *record =
            entry->record ? entry->record : placed_record(placed->under, entry->id);
        placed->own_running = record && record->kind == RECORD_OPERATION;
    }
    g_array_set_size(placed->running, 0);
    if (!placed->own_running)
        return;
    placed_each_record(placed, RECORD_OPERATION, add_running, placed->running);
    g_array_sort_with_data(placed->running, compare_running, placed);
}

Placed *placed_new(const Plate *plate)
{
    Placed *placed = placed_new_empty(NULL);
    placed_begin_round(placed);
    placed->all_touched = true;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        entry_set_record(entry_add(placed, record->id), record);
        dependents_add(placed->dependents, record);
    }
    work_out_frames(placed, plate);
    find_base(placed);
    for (guint i = 0; i < placed->entries->len; i++)
        work_out(placed, &g_array_index(placed->entries, Entry, i));
    find_running(placed);
    placed_reach(placed);
    placed_end_round(placed);
    return placed;
}

static void take_over(Placed *placed, const Plate *plate, FeatureId id)
{
    Entry *entry = placed_entry(placed, id);
    const Record *record = plate_find(plate, id);
    if ((entry && touches_everything(entry->record)) || (record && touches_everything(record)))
        placed->all_touched = true;
    if (entry) {
        placed_leave_station(placed, entry->record);
        dependents_remove(placed->dependents, entry->record);
    }
    if (record) {
        entry_set_record(entry_add(placed, id), record);
        dependents_add(placed->dependents, record);
    } else if (entry) {
        placed_reach_near(placed, entry->has_feature ? &entry->feature : NULL);
        entry_remove(placed, entry);
    }
    placed_touch(placed, id);
}

static void work_out_touched(Placed *placed, FeatureId id)
{
    Entry *entry = placed_entry(placed, id);
    if (!entry)
        return;
    placed_reach_near(placed, entry->has_feature ? &entry->feature : NULL);
    work_out(placed, entry);
    placed_reach_near(placed, entry->has_feature ? &entry->feature : NULL);
}

void placed_update(Placed *placed, const Plate *plate, const ChangeSet *changes)
{
    placed_begin_round(placed);
    bool base_changed = false;
    for (uint32_t i = 0; i < changes->count; i++) {
        take_over(placed, plate, changes->items[i].id);
        base_changed = base_changed || changes->items[i].kind == RECORD_BASE;
    }
    if (base_changed)
        find_base(placed);
    if (placed->all_touched)
        work_out_frames(placed, plate);
    if (placed->all_touched)
        find_running(placed);
    placed_reach(placed);
    guint moved = placed->touched->len;
    for (guint i = 0; i < moved; i++)
        work_out_touched(placed, g_array_index(placed->touched, FeatureId, i));
    placed_end_round(placed);
}

Placed *placed_overlay_new(const Placed *under)
{
    return placed_new_empty(under);
}

static void show_record(Placed *overlay, FeatureId id, const Record *record)
{
    Entry *entry = entry_add(overlay, id);
    entry->shown = overlay->round;
    entry_set_record(entry, record);
}

/* The features that this show does not name are let go of. */
static void drop_stale(Placed *overlay)
{
    for (guint i = overlay->entries->len; i-- > 0;) {
        Entry *entry = &g_array_index(overlay->entries, Entry, i);
        if (entry->shown != overlay->round)
            entry_remove(overlay, entry);
    }
}

void placed_overlay_show(Placed *overlay, const Plate *plate, const Edit *edit)
{
    placed_begin_round(overlay);
    for (uint32_t i = 0; i < edit->count; i++) {
        const RecordChange *change = &edit->changes[i];
        show_record(overlay, change->id, change->after);
        placed_touch(overlay, change->id);
        placed_leave_station(overlay, change->before);
        if (touches_everything(change->after ? change->after : change->before))
            overlay->all_touched = true;
    }
    placed_reach(overlay);
    guint moved = overlay->touched->len;
    for (guint i = 0; i < moved; i++) {
        FeatureId id = g_array_index(overlay->touched, FeatureId, i);
        Entry *entry = placed_entry(overlay, id);
        if (!entry || entry->shown != overlay->round)
            show_record(overlay, id, placed_record(overlay->under, id));
    }
    drop_stale(overlay);
    find_base(overlay);
    find_running(overlay);
    if (overlay->all_touched)
        work_out_frames(overlay, plate);
    else
        g_array_set_size(overlay->frames, 0);
    for (guint i = 0; i < overlay->entries->len; i++)
        work_out(overlay, &g_array_index(overlay->entries, Entry, i));
    for (guint i = 0; i < moved; i++) {
        FeatureId id = g_array_index(overlay->touched, FeatureId, i);
        placed_reach_near(overlay, placed_find(overlay->under, id));
        placed_reach_near(overlay, placed_find(overlay, id));
    }
    placed_end_round(overlay);
}
