/* loads-wrong: another way to seat the part on its locators, turned over or end for end. */
#include "checks/locators.h"

enum { CASE_OVER, CASE_ROUND };

static const RuleCase cases[] = {
    [CASE_OVER] = {LEVEL_CAUTION, VALUE_NONE,
                   N_("the part also goes on {a} turned over: it can be loaded wrong"),
                   N_("add a pin or a nest that lets it on one way alone")},
    [CASE_ROUND] = {LEVEL_CAUTION, VALUE_NONE,
                    N_("the part also goes on {a} in another position: it can be loaded wrong"),
                    N_("add a pin or a nest that lets it on one way alone")},
};

/* Corners and holes nearer than this are taken for the same, mm: play shifts them a little. */
#define SAME 0.2

typedef struct Seat {
    const Placed *placed;
    const Feature *station;
    const Part *part;
    const Outline *outline;
    Locator locators[LOCATORS_MOST];
    int count;
} Seat;

static Point hole_at(const PartHole *hole)
{
    return (Point){length_to_mm(hole->at.x), length_to_mm(hole->at.y)};
}

/* How far a hole's axis may be from a locator's and still go over it; negative: never. */
static double radial_play(const PartHole *hole, const Fitting *fitting)
{
    double least, greatest;
    locator_clearance(hole, fitting, &least, &greatest);
    return greatest / 2;
}

/* The pose that lays the part's points p on f and turns the way to q towards g. */
static Pose pose_by_two(Point p, Point q, Point f, Point g, bool turned_over)
{
    Pose pose = {0, 0, 1, 0, turned_over};
    Point from = pose_direction(pose, point_minus(q, p)), to = point_minus(g, f);
    double length = point_length(from) * point_length(to);
    pose.cosine = point_dot(from, to) / length;
    pose.sine = point_cross(from, to) / length;
    Point laid = pose_point(pose, p);
    pose.x = f.x - laid.x;
    pose.y = f.y - laid.y;
    return pose;
}

static bool is_same_pose(const Seat *seat, Pose pose)
{
    Pose now = seat->station->shape.pose;
    Box box = outline_box(seat->outline);
    double size = fmax(box.x1 - box.x0, box.y1 - box.y0);
    double turn = fabs(point_cross((Point){now.cosine, now.sine}, (Point){pose.cosine, pose.sine}));
    bool along = now.cosine * pose.cosine + now.sine * pose.sine > 0;
    return now.turned_over == pose.turned_over && along && turn * size < 0.5 &&
           point_distance((Point){now.x, now.y}, (Point){pose.x, pose.y}) < 0.5;
}

/* A locator is cleared when a hole of the part goes over it or the part is not there at all. */
static bool clears_locator(const Seat *seat, Pose pose, const Locator *locator)
{
    Point p = pose_point(pose_inverse(pose), locator->at);
    double radius = length_to_mm(locator->fitting->diameter) / 2;
    for (uint32_t i = 0; i < seat->part->holes.count; i++) {
        const PartHole *hole = LIST_AT(&seat->part->holes, PartHole, i);
        if (point_distance(hole_at(hole), p) <= radial_play(hole, locator->fitting))
            return true;
    }
    return outline_distance(seat->outline, p, NULL) >= radius;
}

typedef struct NestCheck {
    Shape part;
    bool fits;
} NestCheck;

static bool check_nest(const Feature *feature, void *data)
{
    NestCheck *check = data;
    Gap room;
    if (feature->kind != FEATURE_RECESS || feature->shape.core != CORE_OUTLINE)
        return true;
    shape_room(&feature->shape, &check->part, &room);
    check->fits = !falls_short(room.distance, 0);
    return check->fits;
}

static bool fits_nests(const Seat *seat, Pose pose)
{
    NestCheck check = {shape_outline(seat->outline, pose, 0), true};
    placed_each_on(seat->placed, seat->station->id, check_nest, &check);
    return check.fits;
}

static bool seats(const Seat *seat, Pose pose)
{
    for (int i = 0; i < seat->count; i++)
        if (!clears_locator(seat, pose, &seat->locators[i]))
            return false;
    return fits_nests(seat, pose);
}

/* Where a point of the part comes to lie, in the coordinates of the part at its own place. */
static Point as_laid(const Seat *seat, Pose pose, Point p)
{
    return pose_point(pose_inverse(seat->station->shape.pose), pose_point(pose, p));
}

static bool has_corner_at(const Seat *seat, Point p)
{
    for (size_t r = 0; r < outline_ring_count(seat->outline); r++) {
        size_t count;
        const Vertex *ring = outline_ring(seat->outline, r, &count);
        for (size_t i = 0; i < count; i++)
            if (point_distance((Point){ring[i].x, ring[i].y}, p) < SAME)
                return true;
    }
    return false;
}

static bool has_hole_at(const Seat *seat, Point p, Length diameter)
{
    for (uint32_t i = 0; i < seat->part->holes.count; i++) {
        const PartHole *hole = LIST_AT(&seat->part->holes, PartHole, i);
        if (hole->diameter == diameter && point_distance(hole_at(hole), p) < SAME)
            return true;
    }
    return false;
}

/* A part that looks the same the other way can't be loaded wrong, unless it has a bevel on one
 * side. */
static bool looks_the_same(const Seat *seat, Pose pose)
{
    if (seat->part->bevel.angle)
        return false;
    for (size_t r = 0; r < outline_ring_count(seat->outline); r++) {
        size_t count;
        const Vertex *ring = outline_ring(seat->outline, r, &count);
        for (size_t i = 0; i < count; i++)
            if (!has_corner_at(seat, as_laid(seat, pose, (Point){ring[i].x, ring[i].y})))
                return false;
    }
    for (uint32_t i = 0; i < seat->part->holes.count; i++) {
        const PartHole *hole = LIST_AT(&seat->part->holes, PartHole, i);
        if (!has_hole_at(seat, as_laid(seat, pose, hole_at(hole)), hole->diameter))
            return false;
    }
    return true;
}

/* Tries the first two locators in every two holes of the part that are as far apart. */
static bool finds_other(const Seat *seat, bool turned_over)
{
    const Locator *first = &seat->locators[0], *second = &seat->locators[1];
    double apart = point_distance(first->at, second->at);
    const List *holes = &seat->part->holes;
    for (uint32_t i = 0; i < holes->count; i++) {
        for (uint32_t k = 0; k < holes->count; k++) {
            const PartHole *one = LIST_AT(holes, PartHole, i), *other = LIST_AT(holes, PartHole, k);
            double play_one = radial_play(one, first->fitting);
            double play_other = radial_play(other, second->fitting);
            double pitch = point_distance(hole_at(one), hole_at(other));
            if (i == k || play_one < 0 || play_other < 0 || pitch <= 0 ||
                fabs(pitch - apart) > play_one + play_other)
                continue;
            Pose pose =
                pose_by_two(hole_at(one), hole_at(other), first->at, second->at, turned_over);
            if (!is_same_pose(seat, pose) && !looks_the_same(seat, pose) && seats(seat, pose))
                return true;
        }
    }
    return false;
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    Seat seat = {.placed = context->placed, .station = a};
    seat.part = station_part(context->placed, a);
    seat.count = station_locators(context->placed, a, seat.locators);
    seat.outline = a->shape.outline;
    if (!seat.part || seat.count < 2 ||
        point_distance(seat.locators[0].at, seat.locators[1].at) <= 0)
        return;
    bool turned_over = a->shape.pose.turned_over;
    if (finds_other(&seat, !turned_over))
        rule_report(context, CASE_OVER, a, NULL, 0, 0);
    if (finds_other(&seat, turned_over))
        rule_report(context, CASE_ROUND, a, NULL, 0, 0);
}

const Rule rule_loads_wrong = {
    .slug = "loads-wrong",
    .title = N_("Part can be loaded wrong"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .check = check,
};
