#include "placed/sweep.h"

#include "placed/placed-seat.h"
#include "placed/placed-solids.h"

#include <math.h>

/* Whole nanometres, halved. */
#define SAME 1e-7

typedef struct Cutting {
    const Placed *placed;
    const Feature *station;
    const Part *part;
    FeatureId part_id;
    const Pass *pass;
    double radius, stock_left, seat;
    SweepVisit visit;
    void *data;
} Cutting;

/* The cutter from its end up to its holder; where nobody has said how far that is, as far as a
 * holder would be looked at. */
static void set_heights(const Cutting *cutting, double bottom, double tip, Sweep *sweep)
{
    double gauge = length_to_mm(cutting->pass->gauge_length);
    sweep->bottom = bottom;
    sweep->tip = tip;
    sweep->top = tip + (gauge > 0 ? gauge : SWEEP_HOLDER);
}

static double depth_below(const Cutting *cutting)
{
    return -cutting->seat - length_to_mm(cutting->pass->depth_below);
}

static Sweep square_to_face(const Cutting *cutting, SweepWay way, Shape path)
{
    const Frame *frame = placed_frame(cutting->placed, cutting->station->face);
    Sweep sweep = {.face = frame->face,
                   .placement = frame_placement(frame),
                   .way = way,
                   .path = path,
                   .radius = cutting->radius};
    set_heights(cutting, depth_below(cutting), depth_below(cutting), &sweep);
    return sweep;
}

static void sweep_outside(const Cutting *cutting)
{
    const Outline *ring = placed_ring(cutting->placed, cutting->part_id, 0);
    Shape path =
        shape_outline(ring, cutting->station->shape.pose, cutting->radius + cutting->stock_left);
    Sweep sweep = square_to_face(cutting, SWEEP_ROUND, path);
    cutting->visit(&sweep, cutting->data);
}

static void sweep_inside(const Cutting *cutting)
{
    size_t rings = outline_ring_count(placed_outline(cutting->placed, cutting->part_id));
    bool on = true;
    for (size_t i = 1; on && i < rings; i++) {
        const Outline *ring = placed_ring(cutting->placed, cutting->part_id, i);
        Sweep sweep = square_to_face(cutting, SWEEP_WITHIN,
                                     shape_outline(ring, cutting->station->shape.pose, 0));
        sweep.inset = cutting->radius + cutting->stock_left;
        on = cutting->visit(&sweep, cutting->data);
    }
}

/* The height of a point of the given included angle over its diameter: common trigonometry. */
static double point_height(const Pass *pass, double radius)
{
    if (pass->point <= 0)
        return 0;
    return radius / tan(angle_to_degrees(pass->point) / 2 * (M_PI / 180));
}

static void sweep_holes(const Cutting *cutting)
{
    bool on = true;
    for (uint32_t i = 0; on && i < cutting->part->holes.count; i++) {
        const PartHole *hole = LIST_AT(&cutting->part->holes, PartHole, i);
        if (cutting->pass->cutter_diameter > hole->diameter + MAX(hole->upper, 0))
            continue;
        Point at = pose_point(cutting->station->shape.pose,
                              (Point){length_to_mm(hole->at.x), length_to_mm(hole->at.y)});
        Sweep sweep = square_to_face(cutting, SWEEP_OVER, shape_circle(at, 0));
        set_heights(cutting, sweep.bottom,
                    sweep.bottom - point_height(cutting->pass, cutting->radius), &sweep);
        on = cutting->visit(&sweep, cutting->data);
    }
}

/* --- bevels ----------------------------------------------------------------------------------- */

/* The line of the edge and the upper line of the bevel, as the level plane that the cutter's end
 * goes in meets the blade: in the plate's own coordinates. */
typedef struct BevelPlane {
    Point from, along, inward; /* of the edge's line, in the plan; the directions of length 1 */
    double length, width, height;
} BevelPlane;

static Space on_part(const Cutting *cutting, Point own, double over_underside)
{
    const Frame *frame = placed_frame(cutting->placed, cutting->station->face);
    return frame_to_space(frame, pose_point(cutting->station->shape.pose, own),
                          over_underside - cutting->seat);
}

static Point in_plan(Space p)
{
    return (Point){p.x, p.y};
}

/* Each side of a bevel with two takes half of what is cut away. The bevel is widest on the thickest
 * stock. */
static bool bevel_plane(const Cutting *cutting, BevelPlane *plane)
{
    const Bevel *bevel = &cutting->part->bevel;
    double thickness = length_to_mm(cutting->part->thickness + cutting->part->thickness_tolerance);
    double edge = length_to_mm(bevel->edge_thickness);
    double left = bevel->both_sides ? (length_to_mm(cutting->part->thickness) + edge) / 2 : edge;
    Point from = {length_to_mm(bevel->from.x), length_to_mm(bevel->from.y)};
    Point to = {length_to_mm(bevel->to.x), length_to_mm(bevel->to.y)};
    Point along = point_minus(to, from);
    double length = point_length(along);
    if (bevel->angle <= 0 || length <= 0 || left >= thickness)
        return false;
    Point inward = {-along.y / length, along.x / length};
    Point middle = outline_centroid(placed_outline(cutting->placed, cutting->part_id));
    if (point_dot(inward, point_minus(middle, from)) < 0)
        inward = point_times(inward, -1);
    double up = (thickness - left) / tan(angle_to_degrees(bevel->angle) * (M_PI / 180));
    Space start = on_part(cutting, from, left), end = on_part(cutting, to, left);
    Space high = on_part(cutting, point_plus(from, point_times(inward, up)), thickness);
    plane->from = in_plan(start);
    plane->along = point_minus(in_plan(end), plane->from);
    plane->length = point_length(plane->along);
    plane->along = point_times(plane->along, 1 / plane->length);
    plane->inward = (Point){-plane->along.y, plane->along.x};
    plane->width = point_dot(plane->inward, point_minus(in_plan(high), plane->from));
    if (plane->width < 0) {
        plane->inward = point_times(plane->inward, -1);
        plane->width = -plane->width;
    }
    plane->height = fmin(start.z, end.z) + cutting->stock_left;
    return true;
}

/* The cutter's side touches the bevel's upper line; where it is narrower than the bevel it goes
 * over it again until its other side is past the edge. Its axis goes from one end of the edge's
 * line to the other. */
static void sweep_bevel(const Cutting *cutting)
{
    BevelPlane plane;
    if (cutting->station->face == ID_TOP || !bevel_plane(cutting, &plane))
        return;
    double most = plane.width - cutting->radius, least = fmin(most, cutting->radius);
    Point middle =
        point_plus(plane.from, point_plus(point_times(plane.along, plane.length / 2),
                                          point_times(plane.inward, (least + most) / 2)));
    Pose pose = {middle.x, middle.y, plane.along.x, plane.along.y, false};
    Sweep sweep = {.face = ID_NONE,
                   .placement = PLACEMENT_IDENTITY,
                   .way = SWEEP_OVER,
                   .path = {.core = most > least ? CORE_RECTANGLE : CORE_SEGMENT,
                            .pose = pose,
                            .half_length = plane.length / 2,
                            .half_width = (most - least) / 2},
                   .radius = cutting->radius};
    set_heights(cutting, plane.height, plane.height, &sweep);
    cutting->visit(&sweep, cutting->data);
}

void sweeps_each(const Placed *placed, const Feature *station, const Pass *pass, SweepVisit visit,
                 void *data)
{
    const Record *part = placed_part(placed, station->id);
    if (!part || pass->cutter_diameter <= 0)
        return;
    Cutting cutting = {.placed = placed,
                       .station = station,
                       .part = &part->part,
                       .part_id = part->id,
                       .pass = pass,
                       .radius = length_to_mm(pass->cutter_diameter) / 2,
                       .stock_left = length_to_mm(pass->stock_left),
                       .seat = -station->bottom,
                       .visit = visit,
                       .data = data};
    switch (pass->where) {
    case PASS_OUTLINE_OUTSIDE:
        sweep_outside(&cutting);
        break;
    case PASS_OUTLINE_INSIDE:
        sweep_inside(&cutting);
        break;
    case PASS_HOLES:
        sweep_holes(&cutting);
        break;
    case PASS_BEVEL:
        sweep_bevel(&cutting);
        break;
    }
}

bool sweep_holder(const Sweep *sweep, const Pass *pass, Sweep *holder)
{
    if (pass->holder_diameter <= 0 || pass->gauge_length <= 0)
        return false;
    *holder = *sweep;
    holder->radius = length_to_mm(pass->holder_diameter) / 2;
    holder->bottom = holder->tip = sweep->top;
    holder->top = sweep->top + SWEEP_HOLDER;
    return true;
}

Shape sweep_area(const Sweep *sweep)
{
    Shape area = sweep->path;
    if (sweep->way != SWEEP_WITHIN)
        area.growth += sweep->radius;
    else if (sweep->radius > sweep->inset)
        area.growth += sweep->radius - sweep->inset;
    return area;
}

Box sweep_way_box(const Sweep *sweep)
{
    Box box = shape_box(&sweep->path);
    return sweep->way == SWEEP_WITHIN ? box_grown(box, -sweep->inset) : box;
}

/* --- gaps ------------------------------------------------------------------------------------- */

/* From the way of the axis to a shape that lies wholly within the border it follows, or wholly
 * without; 0 for one that crosses it. */
static double gap_to_border(const Shape *border, const Shape *other, Gap *gap)
{
    Gap room;
    shape_gap(border, other, gap);
    if (gap->distance >= 0)
        return gap->distance;
    shape_room(border, other, &room);
    if (room.distance < 0)
        return 0;
    *gap = room;
    return room.distance;
}

/* Between the way and an opening's border lies half of the cutter: what is there is met. */
static double gap_within(const Sweep *sweep, const Shape *other, Gap *gap)
{
    Gap outside;
    shape_room(&sweep->path, other, gap);
    if (gap->distance >= sweep->inset)
        return gap->distance - sweep->inset;
    shape_gap(&sweep->path, other, &outside);
    if (outside.distance < 0)
        return 0;
    *gap = outside;
    return outside.distance + sweep->inset;
}

/* In the plan, the sweep to a shape in its own coordinates. */
static double plan_gap(const Sweep *sweep, const Shape *other, Gap *gap)
{
    if (sweep->way == SWEEP_OVER) {
        Shape area = sweep_area(sweep);
        shape_gap(&area, other, gap);
        return gap->distance;
    }
    double way = sweep->way == SWEEP_ROUND ? gap_to_border(&sweep->path, other, gap)
                                           : gap_within(sweep, other, gap);
    return way - sweep->radius;
}

/* Of two bodies drawn out along one direction, by Pythagoras from the gaps of their plans and of
 * their heights. */
static double both_gaps(double plan, double height)
{
    if (plan > 0 && height > 0)
        return hypot(plan, height);
    return fmax(plan, height);
}

typedef struct Nearest {
    const Sweep *sweep;
    double limit;
    bool found;
    SweepGap *gap;
} Nearest;

static void take(Nearest *nearest, double distance, Point on_a, Point on_b)
{
    if (distance > nearest->limit || (nearest->found && distance >= nearest->gap->distance))
        return;
    *nearest->gap = (SweepGap){distance, on_a, on_b};
    nearest->found = true;
}

static void to_upright(Nearest *nearest, const Shape *shape, double bottom, double top)
{
    const Sweep *sweep = nearest->sweep;
    Gap gap;
    double height = fmax(bottom - sweep->top, sweep->tip - top);
    if (height > nearest->limit)
        return;
    double plan = plan_gap(sweep, shape, &gap);
    take(nearest, both_gaps(plan, height), gap.on_a, gap.on_b);
}

static void to_slices(Nearest *nearest, const Feature *feature)
{
    Shape shape = feature->shape;
    for (int i = 0; i < feature->slice_count; i++) {
        shape.growth = feature->slices[i].growth;
        to_upright(nearest, &shape, feature->slices[i].bottom, feature->slices[i].top);
    }
}

static void to_solid(Nearest *nearest, const Solid *solid)
{
    const Sweep *sweep = nearest->sweep;
    SolidGap gap;
    Shape area = sweep_area(sweep);
    Solid own = solid_of_shape(&area, &sweep->placement, sweep->tip, sweep->top);
    if (!solid_gap_within(&own, solid, nearest->limit, &gap))
        return;
    Space on_a = placement_own_point(&sweep->placement, gap.on_a);
    Space on_b = placement_own_point(&sweep->placement, gap.on_b);
    take(nearest, gap.distance, in_plan(on_a), in_plan(on_b));
}

static void to_block_round(Nearest *nearest, const Solid *solid)
{
    SpaceBox box = solid_box_in(solid, &nearest->sweep->placement);
    Pose middle = {(box.least.x + box.most.x) / 2, (box.least.y + box.most.y) / 2, 1, 0, false};
    Shape block = shape_rectangle(middle, box.most.x - box.least.x, box.most.y - box.least.y, 0);
    to_upright(nearest, &block, box.least.z, box.most.z);
}

bool sweep_gap_within(const Placed *placed, const Sweep *sweep, const Feature *feature,
                      double limit, SweepGap *gap)
{
    Nearest nearest = {sweep, limit + SAME, false, gap};
    if (feature->face == sweep->face) {
        Shape area = sweep_area(sweep);
        if (box_distance(shape_loose_box(&area), feature->box) <= nearest.limit)
            to_slices(&nearest, feature);
        return nearest.found;
    }
    Solid solids[SOLIDS_MOST];
    int count = placed_solids(placed, feature, solids);
    for (int i = 0; i < count; i++) {
        if (sweep->way == SWEEP_OVER)
            to_solid(&nearest, &solids[i]);
        else
            to_block_round(&nearest, &solids[i]);
    }
    return nearest.found;
}

/* --- reach ------------------------------------------------------------------------------------ */

static double steepest(const Placed *placed)
{
    double steep = 0;
    for (uint32_t i = 0; i < placed_frame_count(placed); i++) {
        const Space *normal = &placed_frame_at(placed, i)->normal;
        steep = fmax(steep, hypot(normal->x, normal->y));
    }
    return steep;
}

/* A bevel's cutter leans over the face that the blade lies on. */
static void reach_of(const Pass *pass, double thickness, double steep, Reach *reach)
{
    double diameter = length_to_mm(pass->cutter_diameter);
    double beside = diameter + length_to_mm(pass->stock_left) +
                    fmax(diameter, length_to_mm(pass->holder_diameter)) / 2;
    double high = point_height(pass, diameter / 2) + length_to_mm(pass->depth_below) +
                  length_to_mm(pass->stock_left) + length_to_mm(pass->gauge_length) +
                  2 * thickness + 2 * SWEEP_HOLDER;
    bool leans = pass->where == PASS_BEVEL;
    reach->beside = fmax(reach->beside, beside + (leans ? high * steep : 0));
    reach->away = fmax(reach->away, beside + high);
}

Reach sweeps_reach(const Placed *placed)
{
    uint32_t count;
    Reach reach = {0, 0};
    /* Parts and their hardware may lie as deep in their nests as the plate is thick. */
    double thickness = length_to_mm(placed_settings(placed)->stock.thickness);
    double steep = steepest(placed);
    const FeatureId *running = placed_running(placed, &count);
    for (uint32_t i = 0; i < count; i++) {
        const List *passes = &placed_record(placed, running[i])->operation.passes;
        for (uint32_t k = 0; k < passes->count; k++)
            reach_of(LIST_AT(passes, Pass, k), thickness, steep, &reach);
    }
    return reach;
}
