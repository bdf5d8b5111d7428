/* outline-check.c: what makes an outline mean something, checked and said.
 *
 * Neighbouring sides share a corner, so for them a crossing counts only where the loop they make is
 * higher than the model's own step: a line tangent to an arc, rounded to nanometres, cuts it once
 * more close by, and that is no mistake of the maker's.
 */
#include "geometry/outline-private.h"

#include "geometry/length.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* mm: the model's own step. */
#define STEP 1e-6

/* Sides and rings are counted from 1 for the maker; "the outside" is ring 1. */
static bool wrong_side(const Outline *outline, size_t side, Error *error, const char *what)
{
    size_t ring = outline_ring_of(outline, side);
    char place[64];
    snprintf(place, sizeof place, "rings[%zu].vertices[%zu]", ring,
             side - outline->ring_starts[ring]);
    return error_set(error, ERROR_GEOMETRY, place, "%s", what);
}

static bool vertices_good(const Outline *outline, Error *error)
{
    double most = length_to_mm(LENGTH_GREATEST);
    for (size_t i = 0; i < outline->side_count; i++) {
        const Vertex *v = &outline->vertices[i];
        if (!isfinite(v->x) || !isfinite(v->y) || !isfinite(v->sagitta)) {
            return wrong_side(outline, i, error, "a point or an arc's height is not a number");
        }
        if (fabs(v->x) > most || fabs(v->y) > most || fabs(v->sagitta) > most) {
            return wrong_side(outline, i, error,
                              "a point or an arc's height is more than 10,000 mm; check the units");
        }
    }
    return true;
}

static bool make_sides(Outline *outline, Error *error)
{
    for (size_t ring = 0; ring < outline->ring_count; ring++) {
        size_t start = outline->ring_starts[ring], end = outline->ring_starts[ring + 1];
        bool has_arc = false;
        for (size_t i = start; i < end; i++) {
            Vertex from = outline->vertices[i];
            Vertex to = outline->vertices[i + 1 < end ? i + 1 : start];
            if (hypot(to.x - from.x, to.y - from.y) <= TOUCH) {
                return wrong_side(outline, i, error,
                                  "a side has no length: two points are the same; take one out");
            }
            outline->sides[i] = side_between(from, to);
            has_arc = has_arc || outline->sides[i].radius > 0;
        }
        if (end - start == 2 && !has_arc) {
            return wrong_side(outline, start, error,
                              "a ring of two points and no arc encloses nothing");
        }
    }
    return true;
}

/* Turns a ring round: its vertices backwards, each with the sagitta of the side that now leaves it.
 */
static void turn_ring(Outline *outline, size_t ring)
{
    Vertex *v = outline->vertices + outline->ring_starts[ring];
    Side *sides = outline->sides + outline->ring_starts[ring];
    size_t count = outline->ring_starts[ring + 1] - outline->ring_starts[ring];
    /* The first vertex stays the first. */
    for (size_t i = 1, j = count - 1; i < j; i++, j--) {
        Vertex swap = v[i];
        v[i] = v[j];
        v[j] = swap;
    }
    double first = v[0].sagitta;
    for (size_t i = 0; i + 1 < count; i++) {
        v[i].sagitta = -v[i + 1].sagitta;
    }
    v[count - 1].sagitta = -first;
    for (size_t i = 0; i < count; i++) {
        sides[i] = side_between(v[i], v[i + 1 < count ? i + 1 : 0]);
    }
}

/* Twice the signed area of a ring. */
static double ring_area(const Outline *outline, size_t ring)
{
    size_t start = outline->ring_starts[ring], end = outline->ring_starts[ring + 1];
    Point origin = {outline->vertices[start].x, outline->vertices[start].y};
    double area = 0;
    for (size_t i = start; i < end; i++) {
        const Side *side = &outline->sides[i];
        area +=
            point_cross(point_minus(side_start(side), origin), point_minus(side_end(side), origin));
        if (side->radius > 0) {
            double sweep = side_sweep(side);
            double segment = side->radius * side->radius * (sweep - sin(sweep));
            area += side->backwards ? -segment : segment;
        }
    }
    return area;
}

static void turn_rings(Outline *outline)
{
    for (size_t ring = 0; ring < outline->ring_count; ring++) {
        bool counter_clockwise = ring_area(outline, ring) > 0;
        if (counter_clockwise != (ring == 0)) {
            turn_ring(outline, ring);
        }
    }
}

static bool same_corner(Point a, Point b)
{
    return a.x == b.x && a.y == b.y;
}

/* True where two sides that have more than a place in common lie on each other. */
static bool lie_along(const Side *a, const Side *b)
{
    if (a->radius == 0 || b->radius == 0) {
        return a->radius == b->radius;
    }
    return point_distance(a->centre, b->centre) <= STEP && fabs(a->radius - b->radius) <= STEP;
}

/* How high the loop is that two sides make between a corner they share and another place in common:
 * from the middle of each one's stretch to the other. */
static double loop_height(const Side *a, const Side *b, Point corner, Point other)
{
    double height = 0;
    const Side *const sides[] = {a, b};
    for (int i = 0; i < 2; i++) {
        const Side *side = sides[i];
        Point middle = {(corner.x + other.x) / 2, (corner.y + other.y) / 2}, ignored;
        if (side->radius > 0) {
            bool at_a = point_distance(corner, side->a) <= point_distance(corner, side->b);
            Side part = *side;
            if (at_a) {
                part.b = other;
            } else {
                part.a = other;
            }
            part.major = point_cross(side_from(&part), side_to(&part)) < 0;
            middle = side_middle(&part);
        }
        height = fmax(height, sqrt(side_nearest_point(sides[1 - i], middle, &ignored)));
    }
    return height;
}

/* True where two sides that follow each other have nothing in common but their corners. */
static bool neighbours_good(const Side *a, const Side *b, Point *where)
{
    Point crossings[2];
    int count = side_crossings(a, b, crossings);
    Point corners[2];
    int corner_count = 0;
    const Point ends_a[] = {a->a, a->b}, ends_b[] = {b->a, b->b};
    for (int i = 0; i < 4; i++) {
        if (same_corner(ends_a[i / 2], ends_b[i % 2]) && corner_count < 2) {
            corners[corner_count++] = ends_a[i / 2];
        }
    }
    for (int i = 0; i < count; i++) {
        bool at_corner = false;
        for (int j = 0; j < corner_count; j++) {
            at_corner = at_corner || point_distance(crossings[i], corners[j]) <= 2 * TOUCH ||
                        (!lie_along(a, b) && loop_height(a, b, corners[j], crossings[i]) <= STEP);
        }
        if (!at_corner) {
            *where = crossings[i];
            return false;
        }
    }
    return true;
}

typedef struct Search {
    const Outline *outline;
    size_t side;
    bool found;
    size_t other;
    Point where;
} Search;

static bool look_at(size_t other, void *data)
{
    Search *search = data;
    if (other <= search->side) {
        return true;
    }
    const Outline *outline = search->outline;
    const Side *a = &outline->sides[search->side], *b = &outline->sides[other];
    bool neighbours = outline_next_side(outline, search->side) == other ||
                      outline_next_side(outline, other) == search->side;
    if (neighbours) {
        search->found = !neighbours_good(a, b, &search->where);
    } else {
        Near near = {.square = 4 * TOUCH * TOUCH};
        side_nearest(a, b, &near);
        search->found = near.square <= TOUCH * TOUCH;
        search->where = near.on_a;
    }
    search->other = other;
    return !search->found;
}

static bool sides_apart(const Outline *outline, Error *error)
{
    for (size_t i = 0; i < outline->side_count; i++) {
        Search search = {.outline = outline, .side = i};
        Box box = box_grown(side_box(&outline->sides[i]), 2 * TOUCH);
        outline_each_side_near(outline, box, look_at, &search);
        if (search.found) {
            size_t ring = outline_ring_of(outline, i),
                   other = outline_ring_of(outline, search.other);
            char what[200];
            snprintf(what, sizeof what,
                     "side %zu of ring %zu meets side %zu of ring %zu near (%.3f, %.3f) mm; an "
                     "outline may not cross or touch itself",
                     i - outline->ring_starts[ring] + 1, ring + 1,
                     search.other - outline->ring_starts[other] + 1, other + 1, search.where.x,
                     search.where.y);
            return wrong_side(outline, i, error, what);
        }
    }
    return true;
}

static bool rings_good(const Outline *outline, Error *error)
{
    for (size_t ring = 0; ring < outline->ring_count; ring++) {
        size_t start = outline->ring_starts[ring];
        if (!(fabs(ring_area(outline, ring)) > TOUCH * TOUCH)) {
            return wrong_side(outline, start, error, "a ring encloses nothing");
        }
        Point p = {outline->vertices[start].x, outline->vertices[start].y};
        if (ring > 0 && !outline_parity(outline, p, ring)) {
            return wrong_side(outline, start, error,
                              "an opening does not lie inside the outline, or lies in another "
                              "opening");
        }
    }
    return true;
}

bool outline_check(Outline *outline, bool trusted, Error *error)
{
    if (!vertices_good(outline, error) || !make_sides(outline, error)) {
        return false;
    }
    turn_rings(outline);
    size_t *rings = malloc(outline->ring_count * sizeof *rings);
    if (!rings) {
        return error_set(error, ERROR_INTERNAL, NULL, "there is no memory left for the outline");
    }
    outline_build_tree(outline, rings);
    free(rings);
    return trusted || (sides_apart(outline, error) && rings_good(outline, error));
}
