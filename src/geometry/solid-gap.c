/* solid-gap.c: the gap of any two solids.
 *
 * Solids drawn out along one direction are measured by their shapes. Others are convex, or have an
 * outline; an outline's solid is then nearest with the wall of one of its sides, each of which is
 * convex, or with the inside of its bottom or top, where the other's lowest or highest point is.
 */
#include "geometry/shape-private.h"
#include "geometry/solid-private.h"

/* Directions whose sine is no more than this are one direction: a metre off by a picometre. */
#define PARALLEL 1e-13

static bool is_straight(const Solid *solid)
{
    return solid->growth_bottom == solid->growth_top;
}

static bool is_parallel(const SolidPair *pair)
{
    const Space *normal = &pair->b_in_a.normal;
    return fabs(normal->x) <= PARALLEL && fabs(normal->y) <= PARALLEL;
}

/* --- one direction ------------------------------------------------------------------------------
 */

static Shape flat_shape(const Solid *solid, Pose pose)
{
    return (Shape){solid->core,       pose,          solid->growth_top, solid->half_length,
                   solid->half_width, solid->outline};
}

static Pose flat_pose(const Placement *placement)
{
    double turned = placement->along.x * placement->up.y - placement->along.y * placement->up.x;
    return (Pose){placement->origin.x, placement->origin.y, placement->along.x, placement->along.y,
                  turned < 0};
}

/* The two heights of least difference; equal where the solids share a height. */
static double height_gap(double bottom_a, double top_a, double bottom_b, double top_b, double *at_a,
                         double *at_b)
{
    if (bottom_b > top_a) {
        *at_a = top_a;
        *at_b = bottom_b;
    } else if (top_b < bottom_a) {
        *at_a = bottom_a;
        *at_b = top_b;
    } else {
        *at_a = *at_b = (greater_of(bottom_a, bottom_b) + lesser_of(top_a, top_b)) / 2;
    }
    return fabs(*at_a - *at_b);
}

/* A place of both of two shapes that overlap. Where borders cross or growths reach into each other
 * the gap's points say it; else one lies within the other, and so do all its places. */
static Point common_place(const Shape *a, const Shape *b, const Gap *gap)
{
    Point middle = point_times(point_plus(gap->on_a, gap->on_b), 0.5);
    const Point likely[] = {middle, gap->on_a, gap->on_b};
    for (int i = 0; i < 3; i++) {
        if (shape_contains(a, likely[i]) && shape_contains(b, likely[i])) {
            return likely[i];
        }
    }
    for (int turn = 0; turn < 2; turn++) {
        const Shape *of = turn ? b : a, *in = turn ? a : b;
        for (size_t i = 0; i < shape_core_sample_count(of); i++) {
            Point sample = shape_core_sample(of, i);
            if (shape_contains(in, sample)) {
                return sample;
            }
        }
    }
    return middle;
}

/* A distance of TOUCH or less says that they meet, and then the points say nothing. */
static bool nearest_of_parallel(const SolidPair *pair, double limit, Touch *touch)
{
    const Solid *a = pair->a, *b = pair->b;
    double sign = pair->b_in_a.normal.z > 0 ? 1 : -1;
    double bottom = pair->b_in_a.origin.z + sign * (sign > 0 ? b->bottom : b->top);
    double top = pair->b_in_a.origin.z + sign * (sign > 0 ? b->top : b->bottom);
    double at_a, at_b;
    double height = height_gap(a->bottom, a->top, bottom, top, &at_a, &at_b);
    Gap gap;
    Shape flat_a = flat_shape(a, POSE_IDENTITY), flat_b = flat_shape(b, flat_pose(&pair->b_in_a));
    if (height > limit || !shape_gap_within(&flat_a, &flat_b, limit, &gap)) {
        return false;
    }
    if (!(gap.distance > 0)) {
        /* One over the other: nearest at any place of both. */
        Point common = common_place(&flat_a, &flat_b, &gap);
        gap = (Gap){0, common, common};
    }
    touch->on_a = (Space){gap.on_a.x, gap.on_a.y, at_a};
    touch->on_b = (Space){gap.on_b.x, gap.on_b.y, at_b};
    touch->distance = hypot(gap.distance, height);
    return touch->distance <= limit;
}

/* --- outlines -----------------------------------------------------------------------------------
 */

typedef struct WallSearch {
    SolidPair pair; /* a: the outline's solid; b: any */
    bool found;
    Touch best; /* in a's coordinates; before anything is found its distance is the limit */
    Space way;  /* from b to the wall that was looked at last: the next one's is much the same */
    Point aim;  /* about where b is nearest, in a's plane; walls near it are looked at first */
} WallSearch;

static bool nearest_of_any(const SolidPair *pair, double limit, Touch *touch);

/* The wall between two points of a side, its growth made greater by `more`. True when b is no
 * further from it than the best, as `touch` then says. */
static bool try_wall(WallSearch *search, Point from, Point to, double more, Touch *touch)
{
    const Solid *solid = search->pair.a;
    Point along = point_minus(to, from);
    double length = point_length(along);
    double cosine = length > 0 ? along.x / length : 1, sine = length > 0 ? along.y / length : 0;
    const Placement at = {{(from.x + to.x) / 2, (from.y + to.y) / 2, 0},
                          {cosine, sine, 0},
                          {-sine, cosine, 0},
                          {0, 0, 1}};
    const Solid wall = {
        .core = CORE_SEGMENT,
        .half_length = length / 2,
        .bottom = solid->bottom,
        .top = solid->top,
        .growth_bottom = solid->growth_bottom + more,
        .growth_top = solid->growth_top + more,
    };
    SolidPair pair = {&wall, search->pair.b, placement_own(&at, &search->pair.b_in_a),
                      placement_own_direction(&at, search->way),
                      greater_of(more, search->pair.slack)};
    bool near = nearest_of_any(&pair, search->best.distance, touch);
    search->way = placement_direction(&at, touch->way);
    if (!near) {
        return false;
    }
    touch->on_a = placement_point(&at, touch->on_a);
    touch->on_b = placement_point(&at, touch->on_b);
    return true;
}

static bool is_done(const WallSearch *search)
{
    return search->found && (search->best.distance <= TOUCH || search->pair.slack > 0);
}

static void search_wall(WallSearch *search, Point from, Point to, double more)
{
    Touch touch;
    if (try_wall(search, from, to, more, &touch)) {
        search->best = touch;
        search->found = true;
    }
}

/* An arc lies within its chord's wall grown by its height; where that can't be nearer, neither can
 * the arc, and otherwise its halves are looked at, until it is as good as its chord. */
static void search_arc(WallSearch *search, const Side *arc)
{
    Point middle = side_middle(arc);
    Point chord = point_times(point_plus(arc->a, arc->b), 0.5);
    double height = point_distance(middle, chord);
    Touch ignored;
    if (is_done(search)) {
        return;
    }
    if (height <= SOLID_TOLERANCE) {
        search_wall(search, arc->a, arc->b, 0);
    } else if (height <= search->pair.slack) {
        search_wall(search, arc->a, arc->b, height);
    } else if (arc->major || try_wall(search, arc->a, arc->b, height, &ignored)) {
        Side first = side_arc(arc->centre, arc->radius, arc->a, middle, false);
        Side second = side_arc(arc->centre, arc->radius, middle, arc->b, false);
        bool turn = point_distance(search->aim, arc->b) < point_distance(search->aim, arc->a);
        search_arc(search, turn ? &second : &first);
        search_arc(search, turn ? &first : &second);
    }
}

static bool search_side(WallSearch *search, const Side *side)
{
    if (side->radius > 0) {
        search_arc(search, side);
    } else {
        search_wall(search, side->a, side->b, 0);
    }
    return !is_done(search);
}

static bool visit_side(size_t number, void *data)
{
    WallSearch *search = data;
    return search_side(search, &search->pair.a->outline->sides[number]);
}

/* The box of b in a's plane. */
static Box box_on_plane(const SolidPair *pair)
{
    const Placement plain = PLACEMENT_IDENTITY;
    Solid b = *pair->b;
    b.placement = pair->b_in_a;
    SpaceBox box = solid_box_in(&b, &plain);
    return (Box){box.least.x, box.least.y, box.most.x, box.most.y};
}

static const Side *nearest_side(const Outline *outline, Point p)
{
    const Side *best = outline->sides;
    double least = INFINITY;
    Point ignored;
    for (size_t i = 0; i < outline->side_count; i++) {
        double square = side_nearest_point(&outline->sides[i], p, &ignored);
        if (square < least) {
            least = square;
            best = &outline->sides[i];
        }
    }
    return best;
}

static void search_walls(WallSearch *search)
{
    const Solid *solid = search->pair.a;
    Box box = box_on_plane(&search->pair);
    search->aim = (Point){(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
    /* A likely side says how far it is worth looking. */
    if (!search_side(search, nearest_side(solid->outline, search->aim))) {
        return;
    }
    double reach =
        search->best.distance + greater_of(solid->growth_bottom, solid->growth_top) + TOUCH;
    outline_each_side_near(solid->outline, box_grown(box, reach), visit_side, search);
}

/* The convex b's point furthest along a's Z, or furthest against it. */
static Space end_of(const SolidPair *pair, double sign)
{
    Space way = placement_own_direction(&pair->b_in_a, (Space){0, 0, sign});
    return placement_point(&pair->b_in_a, solid_support(pair->b, way));
}

/* Where the convex b is nearest to the inside of the bottom or the top, or goes in through it. The
 * walls are known not to meet b, so that b's whole cut with the solid's heights is inside or
 * outside. Where b's end is a line or a face, it is inside, or outside, or crosses a wall's edge,
 * which is then as near. */
static void search_ends(WallSearch *search)
{
    const Solid *solid = search->pair.a;
    Space low = end_of(&search->pair, -1), high = end_of(&search->pair, 1);
    Space on_b = low.z > solid->top ? low : high;
    double z = low.z > solid->top ? solid->top : solid->bottom;
    if (low.z <= solid->top && high.z >= solid->bottom) {
        z = greater_of(solid->bottom, low.z);
        double part = high.z > low.z ? (z - low.z) / (high.z - low.z) : 0;
        on_b = space_plus(low, space_times(space_minus(high, low), part));
    }
    double height = fabs(on_b.z - z);
    if (height <= search->best.distance &&
        outline_contains(solid->outline, (Point){on_b.x, on_b.y})) {
        search->best = (Touch){.distance = height, .on_a = {on_b.x, on_b.y, z}, .on_b = on_b};
        search->found = true;
    }
}

/* a has an outline. The ends of a outlined solid against the inside of another's are left out: they
 * are nearest at a wall's edge unless they are parallel. */
static bool nearest_of_outline(const SolidPair *pair, double limit, Touch *touch)
{
    WallSearch search = {.pair = *pair, .best = {.distance = limit}, .way = pair->way};
    search_walls(&search);
    if (!is_done(&search) && pair->b->core != CORE_OUTLINE) {
        search_ends(&search);
    }
    *touch = search.best;
    touch->way = search.way;
    return search.found;
}

/* A touch of the swapped pair, whose points are in b's coordinates. */
static Touch touch_swapped(const SolidPair *pair, const Touch *touch)
{
    return (Touch){touch->distance, placement_point(&pair->b_in_a, touch->on_b),
                   placement_point(&pair->b_in_a, touch->on_a),
                   placement_direction(&pair->b_in_a, space_times(touch->way, -1))};
}

static SolidPair pair_swapped(const SolidPair *pair)
{
    const Placement plain = PLACEMENT_IDENTITY;
    Space way = placement_own_direction(&pair->b_in_a, space_times(pair->way, -1));
    return (SolidPair){pair->b, pair->a, placement_own(&pair->b_in_a, &plain), way, pair->slack};
}

/* b has an outline; a may have one. */
static bool nearest_of_outlines(const SolidPair *pair, double limit, Touch *touch)
{
    SolidPair swapped = pair_swapped(pair);
    bool found = pair->a->core == CORE_OUTLINE && nearest_of_outline(pair, limit, touch);
    if (found && (touch->distance <= TOUCH || pair->slack > 0)) {
        return true;
    }
    Touch other;
    bool nearer = nearest_of_outline(&swapped, found ? touch->distance : limit, &other);
    if (nearer || !found) {
        *touch = touch_swapped(pair, &other);
    }
    return found || nearer;
}

/* --- all ----------------------------------------------------------------------------------------
 */

static bool nearest_of_any(const SolidPair *pair, double limit, Touch *touch)
{
    bool outline_a = pair->a->core == CORE_OUTLINE, outline_b = pair->b->core == CORE_OUTLINE;
    if (!outline_a && !outline_b) {
        return solid_nearest(pair, (Space){0, 0, 0}, limit, touch);
    }
    return outline_b ? nearest_of_outlines(pair, limit, touch)
                     : nearest_of_outline(pair, limit, touch);
}

/* The solid itself, or where it has an outline the block round that. */
static Solid convex_round(const Solid *solid)
{
    Solid block = *solid;
    if (solid->core == CORE_OUTLINE) {
        Box box = outline_box(solid->outline);
        Space middle = {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2, 0};
        block.core = CORE_RECTANGLE;
        block.half_length = (box.x1 - box.x0) / 2;
        block.half_width = (box.y1 - box.y0) / 2;
        block.placement.origin = placement_point(&solid->placement, middle);
    }
    return block;
}

static void overlap(const Solid *a, const Solid *b, SolidGap *gap)
{
    Solid round_a = convex_round(a), round_b = convex_round(b);
    SolidPair pair = {.a = &round_a,
                      .b = &round_b,
                      .b_in_a = placement_own(&round_a.placement, &round_b.placement)};
    Touch touch;
    solid_apart(&pair, &touch);
    *gap = (SolidGap){touch.distance, placement_point(&round_a.placement, touch.on_a),
                      placement_point(&round_a.placement, touch.on_b), false};
}

bool solid_gap_within(const Solid *a, const Solid *b, double limit, SolidGap *gap)
{
    SolidPair pair = {.a = a, .b = b, .b_in_a = placement_own(&a->placement, &b->placement)};
    Touch touch;
    bool flat = is_straight(a) && is_straight(b) && is_parallel(&pair);
    if (!(flat ? nearest_of_parallel(&pair, limit, &touch)
               : nearest_of_any(&pair, limit, &touch))) {
        return false;
    }
    if (touch.distance <= TOUCH) {
        overlap(a, b, gap);
        return true;
    }
    bool outlines = a->core == CORE_OUTLINE || b->core == CORE_OUTLINE;
    *gap = (SolidGap){touch.distance, placement_point(&a->placement, touch.on_a),
                      placement_point(&a->placement, touch.on_b), flat || !outlines};
    return true;
}

void solid_gap(const Solid *a, const Solid *b, SolidGap *gap)
{
    solid_gap_within(a, b, INFINITY, gap);
}
