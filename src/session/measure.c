#include "session/measure.h"

#include <math.h>

static Point centre_of(const Feature *feature)
{
    if (feature->kind != FEATURE_PART)
        return feature_at(feature);
    return (Point){(feature->box.x0 + feature->box.x1) / 2,
                   (feature->box.y0 + feature->box.y1) / 2};
}

static Spot spot_point(SpotKind kind, FeatureId face, FeatureId feature, Point at)
{
    return (Spot){kind, face, feature, shape_circle(at, 0)};
}

/* --- what is meant -------------------------------------------------------------------------------
 */

typedef struct Look {
    Point at;
    double best_centre, best_edge; /* mm */
    const Feature *centre, *edge;
} Look;

/* How far a place is from the shape's border, in or out of it. */
static double from_border(const Shape *shape, Point at)
{
    Gap gap;
    Shape point = shape_circle(at, 0);
    if (shape_contains(shape, at))
        shape_room(shape, &point, &gap);
    else
        shape_gap(shape, &point, &gap);
    return fabs(gap.distance);
}

static bool look_at(const Feature *feature, void *data)
{
    Look *look = data;
    double to_centre = point_distance(centre_of(feature), look->at);
    double to_edge = from_border(&feature->shape, look->at);
    bool lower_centre = look->centre && feature->id < look->centre->id;
    if (to_centre < look->best_centre || (to_centre <= look->best_centre && lower_centre)) {
        look->best_centre = to_centre;
        look->centre = feature;
    }
    bool lower_edge = look->edge && feature->id < look->edge->id;
    if (to_edge < look->best_edge || (to_edge <= look->best_edge && lower_edge)) {
        look->best_edge = to_edge;
        look->edge = feature;
    }
    return true;
}

static Shape side_of(Box box, int side)
{
    Point corners[] = {
        {box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}, {box.x0, box.y0}};
    return shape_obround(corners[side], corners[side + 1], 0);
}

static bool face_edge(const Placed *placed, FeatureId face, Point at, double reach, Spot *spot)
{
    const Frame *frame = placed_frame(placed, face);
    double best = reach;
    bool found = false;
    for (int side = 0; frame && side < 4; side++) {
        Shape shape = side_of(shape_box(&frame->extent), side);
        double away = from_border(&shape, at);
        if (away <= best && (!found || away < best)) {
            best = away;
            found = true;
            *spot = (Spot){SPOT_FACE_EDGE, face, ID_NONE, shape};
        }
    }
    return found;
}

Spot spot_at(const Placed *placed, FeatureId face, Point at, double reach)
{
    Spot spot;
    Look look = {at, reach, reach, NULL, NULL};
    Box box = {at.x - reach, at.y - reach, at.x + reach, at.y + reach};
    placed_each_near(placed, face, box, look_at, &look);
    if (look.centre)
        return spot_point(SPOT_CENTRE, face, look.centre->id, centre_of(look.centre));
    if (look.edge)
        return (Spot){SPOT_EDGE, face, look.edge->id, look.edge->shape};
    if (face_edge(placed, face, at, reach, &spot))
        return spot;
    return spot_point(SPOT_POINT, face, ID_NONE, at);
}

Spot spot_of(const Placed *placed, FeatureId id, bool centre)
{
    const Feature *feature = placed_find(placed, id);
    if (!feature)
        return (Spot){.kind = SPOT_NONE};
    if (centre)
        return spot_point(SPOT_CENTRE, feature->face, id, centre_of(feature));
    return (Spot){SPOT_EDGE, feature->face, id, feature->shape};
}

/* --- the distance --------------------------------------------------------------------------------
 */

/* A point within an edge is measured to it from inside. */
static void gap_of(const Shape *a, const Shape *b, Gap *gap)
{
    bool point = a->core == CORE_POINT && a->growth <= 0;
    if (point && shape_contains(b, (Point){a->pose.x, a->pose.y})) {
        Gap room;
        shape_room(b, a, &room);
        *gap = (Gap){room.distance, room.on_b, room.on_a};
        return;
    }
    shape_gap(a, b, gap);
}

bool measure_between(const Spot *from, const Spot *to, Measured *measured)
{
    Gap gap;
    if (from->kind == SPOT_NONE || to->kind == SPOT_NONE || from->face != to->face)
        return false;
    bool swap = to->shape.core == CORE_POINT && from->shape.core != CORE_POINT;
    gap_of(swap ? &to->shape : &from->shape, swap ? &from->shape : &to->shape, &gap);
    measured->distance = gap.distance;
    measured->from = swap ? gap.on_b : gap.on_a;
    measured->to = swap ? gap.on_a : gap.on_b;
    measured->dx = measured->to.x - measured->from.x;
    measured->dy = measured->to.y - measured->from.y;
    return true;
}
