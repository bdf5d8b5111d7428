/* outline.c: outlines made, shared and measured. */
#include "geometry/outline-private.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What one side adds to its ring's area and to the area's first moment, all from `origin`. */
typedef struct Moment {
    double area;
    Point first;
} Moment;

/* The triangle from the origin over the chord: half the cross product, its centroid at a third. */
static Moment chord_moment(Point a, Point b)
{
    double area = point_cross(a, b) / 2;
    return (Moment){area, point_times(point_plus(a, b), area / 3)};
}

/* x - sin x, by its series where the difference would lose digits. */
static double less_sine(double x)
{
    if (x > 0.5) {
        return x - sin(x);
    }
    double square = x * x, term = x * square / 6, sum = term;
    for (int i = 4; i < 16; i += 2) {
        term *= -square / (i * (i + 1));
        sum += term;
    }
    return sum;
}

/* The circular segment between the chord and the arc: area r^2 (angle - sin angle) / 2; its first
 * moment about the centre is 2/3 of half the chord cubed, towards the arc (any handbook's table of
 * plane areas gives the centroid as chord^3 / (12 area) from the centre). */
static Moment segment_moment(const Side *arc, Point centre)
{
    double area = arc->radius * arc->radius * less_sine(side_sweep(arc)) / 2;
    Point chord = point_minus(arc->b, arc->a);
    double length = point_length(chord);
    Point out = {chord.y / length, -chord.x / length};
    double sign = arc->backwards ? -1 : 1;
    Point first =
        point_plus(point_times(centre, area), point_times(out, length * length * length / 12));
    return (Moment){area * sign, point_times(first, sign)};
}

static void measure(Outline *outline)
{
    /* From a vertex, so that an outline far from the origin is as exact as one at it. */
    Point origin = {outline->vertices[0].x, outline->vertices[0].y};
    Moment sum = {0};
    outline->length = 0;
    for (size_t i = 0; i < outline->side_count; i++) {
        const Side *side = &outline->sides[i];
        Moment chord = chord_moment(point_minus(side_start(side), origin),
                                    point_minus(side_end(side), origin));
        sum.area += chord.area;
        sum.first = point_plus(sum.first, chord.first);
        if (side->radius > 0) {
            Moment segment = segment_moment(side, point_minus(side->centre, origin));
            sum.area += segment.area;
            sum.first = point_plus(sum.first, segment.first);
        }
        outline->length += side_length(side);
    }
    outline->area = sum.area;
    outline->centroid = point_plus(origin, point_times(sum.first, 1 / sum.area));
}

/* Goes inwards from the middle of the first side, less and less far, until it is inside. */
static Point find_inside(const Outline *outline)
{
    const Side *side = &outline->sides[0];
    Point from = side_middle(side);
    Point chord = point_minus(side_end(side), side_start(side));
    double length = point_length(chord);
    Point inwards = {-chord.y / length, chord.x / length};
    double far =
        lesser_of(outline->box.x1 - outline->box.x0, outline->box.y1 - outline->box.y0) / 2;
    for (; far > TOUCH; far /= 2) {
        Point p = point_plus(from, point_times(inwards, far)), nearest;
        if (outline_parity(outline, p, SIZE_MAX) &&
            sqrt(outline_nearest_point(outline, p, INFINITY, &nearest)) > far / 4) {
            return p;
        }
    }
    return from;
}

static void outline_free(Outline *outline)
{
    free(outline->ring_starts);
    free(outline->vertices);
    free(outline->sides);
    free(outline->nodes);
    free(outline);
}

/* An outline with room for all, and with the vertices copied. */
static Outline *outline_alloc(const Vertex *vertices, const size_t *ring_starts, size_t ring_count)
{
    size_t sides = ring_starts[ring_count] - ring_starts[0];
    Outline *outline = calloc(1, sizeof *outline);
    if (!outline) {
        return NULL;
    }
    outline->references = 1;
    outline->ring_count = ring_count;
    outline->side_count = sides;
    outline->ring_starts = malloc((ring_count + 1) * sizeof *outline->ring_starts);
    outline->vertices = malloc(sides * sizeof *outline->vertices);
    /* A side is one line of the cache. */
    outline->sides = aligned_alloc(sizeof(Side), sides * sizeof *outline->sides);
    outline->nodes = malloc(sides * sizeof *outline->nodes);
    if (!outline->ring_starts || !outline->vertices || !outline->sides || !outline->nodes) {
        outline_free(outline);
        return NULL;
    }
    memcpy(outline->vertices, vertices + ring_starts[0], sides * sizeof *vertices);
    for (size_t i = 0; i <= ring_count; i++) {
        outline->ring_starts[i] = ring_starts[i] - ring_starts[0];
    }
    return outline;
}

static bool counts_good(const size_t *ring_starts, size_t ring_count, Error *error)
{
    if (ring_count == 0) {
        return error_set(error, ERROR_GEOMETRY, NULL, "an outline needs at least one ring");
    }
    if (ring_count > OUTLINE_RINGS_MOST) {
        return error_set(error, ERROR_LIMIT, NULL,
                         "an outline of %zu rings is more than the %d that are taken", ring_count,
                         OUTLINE_RINGS_MOST);
    }
    for (size_t i = 0; i < ring_count; i++) {
        if (ring_starts[i + 1] < ring_starts[i] + 2 || ring_starts[i + 1] < ring_starts[i]) {
            char place[32];
            snprintf(place, sizeof place, "rings[%zu]", i);
            return error_set(error, ERROR_GEOMETRY, place,
                             "a ring needs three points, or two where a side is an arc");
        }
    }
    size_t sides = ring_starts[ring_count] - ring_starts[0];
    if (sides > OUTLINE_SIDES_MOST) {
        return error_set(error, ERROR_LIMIT, NULL,
                         "an outline of %zu sides is more than the %d that are taken", sides,
                         OUTLINE_SIDES_MOST);
    }
    return true;
}

/* Works out all that is kept beside the vertices; frees the outline and returns NULL on an error.
 */
static Outline *outline_finish(Outline *outline, bool trusted, Error *error)
{
    if (!outline_check(outline, trusted, error)) {
        outline_free(outline);
        return NULL;
    }
    outline->box = BOX_EMPTY;
    for (size_t i = 0; i < outline->side_count; i++) {
        outline->box = box_union(outline->box, side_box(&outline->sides[i]));
    }
    outline_fill_reaches(outline);
    measure(outline);
    outline->inside = find_inside(outline);
    return outline;
}

Outline *outline_new(const Vertex *vertices, const size_t *ring_starts, size_t ring_count,
                     Error *error)
{
    if (!counts_good(ring_starts, ring_count, error)) {
        return NULL;
    }
    Outline *outline = outline_alloc(vertices, ring_starts, ring_count);
    if (!outline) {
        error_set(error, ERROR_INTERNAL, NULL, "there is no memory left for the outline");
        return NULL;
    }
    return outline_finish(outline, false, error);
}

Outline *outline_posed(const Outline *outline, Pose pose, Error *error)
{
    Outline *posed = outline_alloc(outline->vertices, outline->ring_starts, outline->ring_count);
    if (!posed) {
        error_set(error, ERROR_INTERNAL, NULL, "there is no memory left for the outline");
        return NULL;
    }
    for (size_t i = 0; i < posed->side_count; i++) {
        Vertex *vertex = &posed->vertices[i];
        Point p = pose_point(pose, (Point){vertex->x, vertex->y});
        *vertex = (Vertex){p.x, p.y, pose.turned_over ? -vertex->sagitta : vertex->sagitta};
    }
    return outline_finish(posed, true, error);
}

Outline *outline_ref(Outline *outline)
{
    if (outline) {
        outline->references++;
    }
    return outline;
}

void outline_unref(Outline *outline)
{
    if (outline && --outline->references == 0) {
        outline_free(outline);
    }
}

size_t outline_ring_count(const Outline *outline)
{
    return outline->ring_count;
}

const Vertex *outline_ring(const Outline *outline, size_t ring, size_t *count)
{
    *count = outline->ring_starts[ring + 1] - outline->ring_starts[ring];
    return outline->vertices + outline->ring_starts[ring];
}

size_t outline_ring_of(const Outline *outline, size_t side)
{
    size_t low = 0, high = outline->ring_count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (outline->ring_starts[middle] <= side) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

size_t outline_next_side(const Outline *outline, size_t side)
{
    size_t ring = outline_ring_of(outline, side);
    return side + 1 < outline->ring_starts[ring + 1] ? side + 1 : outline->ring_starts[ring];
}

Box outline_box(const Outline *outline)
{
    return outline->box;
}

double outline_area(const Outline *outline)
{
    return outline->area;
}

double outline_length(const Outline *outline)
{
    return outline->length;
}

Point outline_centroid(const Outline *outline)
{
    return outline->centroid;
}

bool outline_contains(const Outline *outline, Point p)
{
    Point nearest;
    return outline_parity(outline, p, SIZE_MAX) ||
           outline_nearest_point(outline, p, TOUCH * TOUCH, &nearest) < TOUCH * TOUCH;
}

double outline_distance(const Outline *outline, Point p, Point *nearest)
{
    Point found = p;
    double distance = sqrt(outline_nearest_point(outline, p, INFINITY, &found));
    if (nearest) {
        *nearest = found;
    }
    return outline_parity(outline, p, SIZE_MAX) ? -distance : distance;
}
