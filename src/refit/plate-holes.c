#include "refit/plate-holes.h"

/* A hole this near one of the base's seats is the base's, in mm (common practice, no source). */
#define SEAT_NEAR 0.5

typedef struct Gathering {
    const Placed *placed;
    PlateHoles *holes;
    FeatureId face;
} Gathering;

static bool add_standing(const Feature *feature, void *data)
{
    const Gathering *gathering = ((void **)data)[0];
    HoleUse *use = ((void **)data)[1];
    if (feature->kind == FEATURE_FITTING)
        hole_use_fitting(use, &placed_record(gathering->placed, feature->id)->fitting);
    return true;
}

static bool belongs_to_base(const Placed *placed, const Feature *feature)
{
    const Record *record = placed_record(placed, placed_base(placed));
    if (!record || record->kind != RECORD_BASE || feature->face != ID_TOP)
        return false;
    for (uint32_t i = 0; i < record->base.seats.count; i++) {
        const BaseSeat *seat = LIST_AT(&record->base.seats, BaseSeat, i);
        Point at = {length_to_mm(seat->at.x), length_to_mm(seat->at.y)};
        if (point_distance(at, feature_at(feature)) <= SEAT_NEAR)
            return true;
    }
    return false;
}

static uint32_t use_number(GArray *uses, const HoleUse *use)
{
    for (guint i = 0; i < uses->len; i++)
        if (hole_use_equal(&g_array_index(uses, HoleUse, i), use))
            return i;
    g_array_append_val(uses, *use);
    return uses->len - 1;
}

static bool gather(const Feature *feature, void *data)
{
    Gathering *gathering = data;
    if (feature->kind != FEATURE_HOLE || feature->face != gathering->face ||
        belongs_to_base(gathering->placed, feature))
        return true;
    HoleUse use = hole_use(&placed_record(gathering->placed, feature->id)->hole);
    void *both[2] = {gathering, &use};
    placed_each_on(gathering->placed, feature->id, add_standing, both);
    if (!hole_use_any(&use))
        return true;
    MatchHole hole = {feature_at(feature), use_number(gathering->holes->uses, &use), feature->id};
    g_array_append_val(gathering->holes->holes, hole);
    return true;
}

static gint compare_by_id(gconstpointer a, gconstpointer b)
{
    FeatureId one = ((const MatchHole *)a)->id, other = ((const MatchHole *)b)->id;
    return (one > other) - (one < other);
}

void plate_holes_init(PlateHoles *holes, const Placed *placed)
{
    holes->holes = g_array_new(FALSE, FALSE, sizeof(MatchHole));
    holes->faces = g_array_new(FALSE, FALSE, sizeof(FaceHoles));
    holes->uses = g_array_new(FALSE, FALSE, sizeof(HoleUse));
    for (uint32_t i = 0; i < placed_frame_count(placed); i++) {
        Gathering gathering = {placed, holes, placed_frame_at(placed, i)->face};
        FaceHoles face = {gathering.face, holes->holes->len, 0};
        placed_each(placed, gather, &gathering);
        face.count = holes->holes->len - face.first;
        MatchHole *own = (MatchHole *)(void *)holes->holes->data;
        if (face.count > 1)
            qsort(own + face.first, face.count, sizeof(MatchHole), compare_by_id);
        g_array_append_val(holes->faces, face);
    }
}

void plate_holes_clear(PlateHoles *holes)
{
    g_array_unref(holes->holes);
    g_array_unref(holes->faces);
    g_array_unref(holes->uses);
}
