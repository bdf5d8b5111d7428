#include "drawing/hatching.h"

#include <glib.h>
#include <stdlib.h>

static int rising(const void *a, const void *b)
{
    double first = *(const double *)a, second = *(const double *)b;
    return (first > second) - (first < second);
}

/* Along the lines, u = (x + y) / sqrt(2); across them, v = (y - x) / sqrt(2). */
static double along(Point p)
{
    return (p.x + p.y) / G_SQRT2;
}

static double across(Point p)
{
    return (p.y - p.x) / G_SQRT2;
}

static Point from_line(double u, double v)
{
    return (Point){(u - v) / G_SQRT2, (u + v) / G_SQRT2};
}

/* Where the line at `v` crosses the rings' sides, in rising order. A corner that lies on the line
 * belongs to the side above it alone, so that crossings come in pairs. */
static size_t find_crossings(const HatchRing *rings, size_t count, double v, double *crossings)
{
    size_t found = 0;
    for (size_t r = 0; r < count; r++) {
        for (size_t i = 0; i < rings[r].count; i++) {
            Point a = rings[r].corners[i], b = rings[r].corners[(i + 1) % rings[r].count];
            double va = across(a), vb = across(b);
            if ((va > v) != (vb > v))
                crossings[found++] = along(a) + (along(b) - along(a)) * (v - va) / (vb - va);
        }
    }
    qsort(crossings, found, sizeof *crossings, rising);
    return found;
}

void hatching_draw_rings(Drawing *drawing, const HatchRing *rings, size_t count)
{
    double low = INFINITY, high = -INFINITY;
    size_t sides = 0;
    for (size_t r = 0; r < count; r++) {
        sides += rings[r].count;
        for (size_t i = 0; i < rings[r].count; i++) {
            low = fmin(low, across(rings[r].corners[i]));
            high = fmax(high, across(rings[r].corners[i]));
        }
    }
    double *crossings = g_new(double, sides);
    for (double n = ceil(low / HATCHING_PITCH); n * HATCHING_PITCH < high; n++) {
        double v = n * HATCHING_PITCH;
        size_t found = find_crossings(rings, count, v, crossings);
        for (size_t i = 0; i + 1 < found; i += 2)
            drawing_line(drawing, LINE_HATCHING, from_line(crossings[i], v),
                         from_line(crossings[i + 1], v));
    }
    g_free(crossings);
}

void hatching_draw(Drawing *drawing, const Point *corners, size_t count)
{
    hatching_draw_rings(drawing, &(HatchRing){corners, count}, 1);
}
