#include "session/snap.h"

#include <stdlib.h>

typedef struct Draw {
    const SnapSettings *settings;
    const FeatureId *except;
    uint32_t except_count;
    Point p;
    double best_x, best_y; /* how far the nearest line is, each way */
    double to_x, to_y;
    FeatureId from_x, from_y;
    bool found_x, found_y;
} Draw;

static int compare_ids(const void *a, const void *b)
{
    FeatureId one = *(const FeatureId *)a, other = *(const FeatureId *)b;
    return (one > other) - (one < other);
}

static void offer_x(Draw *draw, double x, FeatureId from)
{
    double away = fabs(x - draw->p.x);
    if (away < draw->best_x || (draw->found_x && away <= draw->best_x && from < draw->from_x)) {
        draw->best_x = away;
        draw->to_x = x;
        draw->from_x = from;
        draw->found_x = true;
    }
}

static void offer_y(Draw *draw, double y, FeatureId from)
{
    double away = fabs(y - draw->p.y);
    if (away < draw->best_y || (draw->found_y && away <= draw->best_y && from < draw->from_y)) {
        draw->best_y = away;
        draw->to_y = y;
        draw->from_y = from;
        draw->found_y = true;
    }
}

static bool offer_feature(const Feature *feature, void *data)
{
    Draw *draw = data;
    if (draw->except_count &&
        bsearch(&feature->id, draw->except, draw->except_count, sizeof(FeatureId), compare_ids))
        return true;
    Point centre = feature_at(feature);
    offer_x(draw, centre.x, feature->id);
    offer_y(draw, centre.y, feature->id);
    if (feature->kind != FEATURE_HOLE) {
        offer_x(draw, feature->box.x0, feature->id);
        offer_x(draw, feature->box.x1, feature->id);
        offer_y(draw, feature->box.y0, feature->id);
        offer_y(draw, feature->box.y1, feature->id);
    }
    return true;
}

static double on_grid(double value, double origin, double grid)
{
    return origin + round((value - origin) / grid) * grid;
}

/* Whatever lines up with the place, however far off, lies in one of two strips across the face. */
static void offer_features(const Session *session, FeatureId face, Draw *draw)
{
    const Placed *placed = session_placed(session);
    const Frame *frame = placed_frame(placed, face);
    Box all = box_grown(shape_box(&frame->extent), draw->settings->reach);
    Box upright = {draw->p.x - draw->best_x, all.y0, draw->p.x + draw->best_x, all.y1};
    Box level = {all.x0, draw->p.y - draw->best_y, all.x1, draw->p.y + draw->best_y};
    placed_each_near(placed, face, upright, offer_feature, draw);
    placed_each_near(placed, face, level, offer_feature, draw);
}

static void offer_guides(const Guides *guides, FeatureId face, Draw *draw)
{
    for (uint32_t i = 0; i < guides->count; i++) {
        const Guide *guide = &guides->items[i];
        if (guide->face == face && guide->upright)
            offer_x(draw, length_to_mm(guide->at), ID_NONE);
        else if (guide->face == face)
            offer_y(draw, length_to_mm(guide->at), ID_NONE);
    }
}

Snap snap_place(const Session *session, FeatureId face, Place at, const FeatureId *except,
                uint32_t except_count, const SnapSettings *settings)
{
    Point p = {length_to_mm(at.x), length_to_mm(at.y)};
    Draw draw = {.settings = settings,
                 .except = except,
                 .except_count = except_count,
                 .p = p,
                 .best_x = settings->reach,
                 .best_y = settings->reach};
    Place exact = face == ID_TOP ? plate_datum(session_plate(session)) : (Place){0, 0};
    Point datum = {length_to_mm(exact.x), length_to_mm(exact.y)};
    offer_x(&draw, datum.x, ID_NONE);
    offer_y(&draw, datum.y, ID_NONE);
    if (settings->guides)
        offer_guides(settings->guides, face, &draw);
    if (settings->features)
        offer_features(session, face, &draw);
    if (!draw.found_x)
        draw.to_x = settings->grid > 0 ? on_grid(p.x, datum.x, settings->grid) : p.x;
    if (!draw.found_y)
        draw.to_y = settings->grid > 0 ? on_grid(p.y, datum.y, settings->grid) : p.y;
    return (Snap){{length_from_mm(draw.to_x), length_from_mm(draw.to_y)},
                  draw.found_x,
                  draw.found_y,
                  draw.from_x,
                  draw.from_y};
}

typedef struct Near {
    const Feature *feature;
    NearestGaps *gaps;
    double within;
} Near;

/* What belongs to one station lies close on purpose. */
static bool measure(const Feature *other, void *data)
{
    Near *near = data;
    Gap gap;
    bool same_station = near->feature->station && near->feature->station == other->station;
    if (other->id == near->feature->id || same_station || other->kind == FEATURE_KEEP_CLEAR)
        return true;
    shape_gap(&near->feature->shape, &other->shape, &gap);
    if (gap.distance <= near->within &&
        (!near->gaps->has_neighbour || gap.distance < near->gaps->neighbour.distance)) {
        near->gaps->has_neighbour = true;
        near->gaps->neighbour = gap;
        near->gaps->neighbour_id = other->id;
    }
    return true;
}

NearestGaps nearest_gaps(const Placed *placed, FeatureId id, double within)
{
    NearestGaps gaps = {.has_edge = false};
    const Feature *feature = placed_find(placed, id);
    const Frame *frame = feature ? placed_frame(placed, feature->face) : NULL;
    if (!frame)
        return gaps;
    Gap room;
    shape_room(&frame->extent, &feature->shape, &room);
    gaps.has_edge = true;
    gaps.edge = (Gap){room.distance, room.on_b, room.on_a};
    Near near = {feature, &gaps, within};
    placed_each_near(placed, feature->face, box_grown(feature->box, within), measure, &near);
    return gaps;
}
