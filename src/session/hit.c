#include "session/hit.h"

#include <stdlib.h>

typedef struct Search {
    Point p;
    double reach;
    unsigned kinds;
    const Feature *best;
    int best_rank;
    double best_size;
} Search;

static int rank(const Feature *feature)
{
    switch (feature->kind) {
    case FEATURE_FITTING:
        return 0;
    case FEATURE_HOLE:
        return 1;
    case FEATURE_RECESS:
    case FEATURE_KEEP_CLEAR:
        return 2;
    case FEATURE_PART:
        return 3;
    }
    return 4;
}

static double size_of(const Feature *feature)
{
    return (feature->box.x1 - feature->box.x0) * (feature->box.y1 - feature->box.y0);
}

static bool try_feature(const Feature *feature, void *data)
{
    Search *search = data;
    Shape reached = feature->shape;
    reached.growth += search->reach;
    if (!(feature->kind & search->kinds) || !shape_contains(&reached, search->p))
        return true;
    int place = rank(feature);
    double size = size_of(feature);
    bool better = !search->best || place < search->best_rank ||
                  (place == search->best_rank &&
                   (size < search->best_size ||
                    (size <= search->best_size && feature->id < search->best->id)));
    if (better) {
        search->best = feature;
        search->best_rank = place;
        search->best_size = size;
    }
    return true;
}

FeatureId hit_point(const Placed *placed, FeatureId face, Point p, double reach, unsigned kinds)
{
    Search search = {p, reach, kinds, NULL, 0, 0};
    Box box = {p.x - reach, p.y - reach, p.x + reach, p.y + reach};
    placed_each_near(placed, face, box, try_feature, &search);
    return search.best ? search.best->id : ID_NONE;
}

typedef struct Band {
    Box box;
    unsigned kinds;
    GArray *ids;
} Band;

static bool take_if_within(const Feature *feature, void *data)
{
    Band *band = data;
    if ((feature->kind & band->kinds) && feature->box.x0 >= band->box.x0 &&
        feature->box.x1 <= band->box.x1 && feature->box.y0 >= band->box.y0 &&
        feature->box.y1 <= band->box.y1)
        g_array_append_val(band->ids, feature->id);
    return true;
}

static int compare_ids(const void *a, const void *b)
{
    FeatureId one = *(const FeatureId *)a, other = *(const FeatureId *)b;
    return (one > other) - (one < other);
}

GArray *hit_band(const Placed *placed, FeatureId face, Box box, unsigned kinds)
{
    Band band = {box, kinds, g_array_new(FALSE, FALSE, sizeof(FeatureId))};
    placed_each_near(placed, face, box, take_if_within, &band);
    g_array_sort(band.ids, compare_ids);
    return band.ids;
}
