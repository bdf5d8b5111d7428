#include "shopplan/path.h"

#include <glib.h>
#include <stdlib.h>

/* Gains smaller than this (mm) are rounding. */
#define GAIN 1e-9
/* Passes over the whole way; each is as long as the square of the count. */
#define PASSES_MOST 60
/* More places than this are not searched through, but taken strip by strip. */
#define SEARCHED_MOST 3000
/* Stretches of up to this many places are moved elsewhere. */
#define STRETCH_MOST 3

typedef struct Way {
    Point start;
    const Point *points;
    uint32_t *order;
    size_t count;
} Way;

/* The place before the first is the start. */
static Point place(const Way *way, ptrdiff_t i)
{
    return i < 0 ? way->start : way->points[way->order[i]];
}

/* The length from the i-th place to the next; nothing leaves the last one. */
static double leg(const Way *way, ptrdiff_t i, ptrdiff_t j)
{
    return j >= (ptrdiff_t)way->count ? 0 : point_distance(place(way, i), place(way, j));
}

double path_length(Point start, const Point *points, const uint32_t *order, size_t count)
{
    double length = 0;
    for (size_t i = 0; i < count; i++) {
        length += point_distance(start, points[order[i]]);
        start = points[order[i]];
    }
    return length;
}

static void nearest_first(Way *way)
{
    Point at = way->start;
    for (size_t i = 0; i < way->count; i++)
        way->order[i] = (uint32_t)i;
    for (size_t i = 0; i < way->count; i++) {
        size_t best = i;
        for (size_t j = i + 1; j < way->count; j++) {
            double gain = point_distance(at, place(way, (ptrdiff_t)best)) -
                          point_distance(at, place(way, (ptrdiff_t)j));
            if (gain > GAIN || (gain > -GAIN && way->order[j] < way->order[best]))
                best = j;
        }
        uint32_t taken = way->order[best];
        way->order[best] = way->order[i];
        way->order[i] = taken;
        at = way->points[taken];
    }
}

static void turn_round(Way *way, size_t first, size_t last)
{
    for (; first < last; first++, last--) {
        uint32_t kept = way->order[first];
        way->order[first] = way->order[last];
        way->order[last] = kept;
    }
}

/* Turns round each stretch that makes the way shorter by it. */
static bool turn_stretches(Way *way)
{
    bool better = false;
    ptrdiff_t count = (ptrdiff_t)way->count;
    for (ptrdiff_t i = 0; i < count; i++)
        for (ptrdiff_t j = i + 1; j < count; j++) {
            double before = leg(way, i - 1, i) + leg(way, j, j + 1);
            double after = leg(way, i - 1, j) + leg(way, i, j + 1);
            if (before - after > GAIN) {
                turn_round(way, (size_t)i, (size_t)j);
                better = true;
            }
        }
    return better;
}

/* Moves the stretch from `first` to `last` to behind the place `to`, which lies outside it. */
static void move_stretch(Way *way, ptrdiff_t first, ptrdiff_t last, ptrdiff_t to)
{
    if (to > last) {
        turn_round(way, (size_t)first, (size_t)last);
        turn_round(way, (size_t)last + 1, (size_t)to);
        turn_round(way, (size_t)first, (size_t)to);
    } else {
        turn_round(way, (size_t)(to + 1), (size_t)first - 1);
        turn_round(way, (size_t)first, (size_t)last);
        turn_round(way, (size_t)(to + 1), (size_t)last);
    }
}

static bool move_stretches(Way *way)
{
    bool better = false;
    ptrdiff_t count = (ptrdiff_t)way->count;
    for (ptrdiff_t length = 1; length <= STRETCH_MOST; length++)
        for (ptrdiff_t i = 0; i + length <= count; i++)
            for (ptrdiff_t to = -1; to < count; to++) {
                ptrdiff_t last = i + length - 1;
                if (to >= i - 1 && to <= last)
                    continue;
                double saved = leg(way, i - 1, i) + leg(way, last, last + 1) -
                               leg(way, i - 1, last + 1) + leg(way, to, to + 1);
                double added = leg(way, to, i) + leg(way, last, to + 1);
                if (saved - added <= GAIN)
                    continue;
                move_stretch(way, i, last, to);
                better = true;
                break;
            }
    return better;
}

typedef struct Strips {
    const Point *points;
    double bottom, height;
} Strips;

static int compare_in_strips(const void *a, const void *b, void *data)
{
    const Strips *strips = data;
    uint32_t first = *(const uint32_t *)a, second = *(const uint32_t *)b;
    Point p = strips->points[first], q = strips->points[second];
    double p_strip = floor((p.y - strips->bottom) / strips->height);
    double q_strip = floor((q.y - strips->bottom) / strips->height);
    if (p_strip != q_strip)
        return p_strip < q_strip ? -1 : 1;
    bool back = fmod(p_strip, 2) == 1;
    if (p.x != q.x)
        return (p.x < q.x) != back ? -1 : 1;
    return (first > second) - (first < second);
}

/* To and fro in strips as high as a few holes are apart: the work of sorting alone, for plates of
 * more holes than anybody drills. */
static void strip_by_strip(Way *way)
{
    Point least = way->points[0], most = way->points[0];
    for (size_t i = 0; i < way->count; i++) {
        way->order[i] = (uint32_t)i;
        least = (Point){fmin(least.x, way->points[i].x), fmin(least.y, way->points[i].y)};
        most = (Point){fmax(most.x, way->points[i].x), fmax(most.y, way->points[i].y)};
    }
    double area = fmax(most.x - least.x, 1) * fmax(most.y - least.y, 1);
    Strips strips = {way->points, least.y, sqrt(3 * area / (double)way->count)};
    qsort_r(way->order, way->count, sizeof *way->order, compare_in_strips, &strips);
}

double path_order(Point start, const Point *points, size_t count, uint32_t *order)
{
    Way way = {start, points, order, count};
    if (count > SEARCHED_MOST) {
        strip_by_strip(&way);
        return path_length(start, points, order, count);
    }
    nearest_first(&way);
    for (int pass = 0; pass < PASSES_MOST; pass++) {
        bool turned = turn_stretches(&way);
        bool moved = move_stretches(&way);
        if (!turned && !moved)
            break;
    }
    return path_length(start, points, order, count);
}
